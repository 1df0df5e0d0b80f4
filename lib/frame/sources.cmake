set(sources bolts.c bolts_check.c border.c cargo.c case.c case_load.c case_text.c combination.c copy.c corner.c cutting.c cycles.c
            deck.c frame.c frame_stock.c join_text.c joint.c mount.c names.c plane_figure.c plate.c story.c topology.c tube.c tube_shape.c usage.c usage_cases.c usage_loads.c
            usage_standing.c validate.c validate_tube.c vehicle.c weld.c)
