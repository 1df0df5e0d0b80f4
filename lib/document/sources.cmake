set(sources document.c expect.c expression.c input.c json.c keys.c reader.c reading.c reference.c
            resolve_cargo.c resolve_cases.c resolve_expect.c resolve_forces.c resolve_head.c
            resolve_joints.c resolve_mounts.c resolve_stock.c resolve_tubes.c results.c starter.c
            stock_json.c syntax.c tree.c understood.c unquote.c value.c walk.c)
