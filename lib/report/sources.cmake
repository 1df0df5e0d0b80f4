set(sources
  body.c drawing.c export_bytes.c export_csv.c export_dxf.c export_dxf_plate.c export_dxf_text.c
  export_glb.c export_glb_mesh.c export_solid.c export_table_cuts.c export_table_frame.c export_table_result.c
  export_used.c export_vtu.c forces_panel.c joints_picture.c labels.c lettering.c markup.c
  names_picture.c page_checks.c page_frame.c page_plates.c page_script.c page_shop.c page_stand.c page_style.c page_table.c page_turning.c page_verdict.c
  picture_panel.c projection.c report.c sheet.c tubes_picture.c uses.c views_panel.c)
