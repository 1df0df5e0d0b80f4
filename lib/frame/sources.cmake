set(sources border.c cargo.c case.c case_load.c case_text.c combination.c frame.c frame_stock.c joint.c mount.c
            names.c topology.c tube.c tube_shape.c validate.c validate_tube.c)
