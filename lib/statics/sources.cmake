set(sources assemble.c axes.c balance.c evaluate.c freedom.c geometry.c loads.c numbering.c plan.c recover.c span_rows.c
    result.c solve.c span.c span_bounds.c span_load.c span_pieces.c tie.c tie_plan.c)
