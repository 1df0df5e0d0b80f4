set(sources body.c drawing.c forces_panel.c joints_picture.c labels.c lettering.c markup.c names_picture.c
            page_checks.c page_frame.c page_stand.c page_style.c page_table.c page_verdict.c picture_panel.c
            projection.c report.c sheet.c tubes_picture.c uses.c views_panel.c)
