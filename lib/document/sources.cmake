set(sources check_json.c cuts_json.c document.c expect.c expect_hint.c expression.c input.c joins_json.c json.c kept.c keys.c overrides.c reader.c reading.c reference.c
            resolve.c resolve_bolt_parts.c resolve_bolts.c resolve_cargo.c resolve_cases.c resolve_cycles.c resolve_decks.c
            resolve_expect.c resolve_forces.c resolve_head.c resolve_joints.c resolve_measured.c resolve_mounts.c resolve_plates.c resolve_shop.c
            resolve_stock.c resolve_tubes.c resolve_usage.c resolve_welds.c results.c starter.c stock_json.c
            syntax.c tree.c understood.c unquote.c value.c walk.c)
