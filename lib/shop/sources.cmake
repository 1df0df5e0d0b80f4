set(sources bar_bound.c bar_filling.c bar_search.c bars.c bent.c cut_end.c cut_flat.c cut_host.c cut_plan.c cut_rule.c
            cut_saddle.c cut_tables.c cuts.c drill.c pieces.c saddle_template.c shop_notes.c silhouette.c small_parts.c
            weld_sum.c words_buy.c words_saw.c)
