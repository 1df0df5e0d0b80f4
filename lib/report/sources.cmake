set(sources body.c drawing.c forces_panel.c joints_picture.c labels.c lettering.c markup.c names_picture.c
            picture_panel.c projection.c report.c sheet.c tubes_picture.c uses.c views_panel.c)
