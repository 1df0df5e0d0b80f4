set(sources export_bytes.c export_csv.c export_dxf.c export_dxf_plate.c export_dxf_text.c export_glb.c export_glb_mesh.c
            export_solid.c export_table_frame.c export_table_result.c export_used.c export_vtu.c)
