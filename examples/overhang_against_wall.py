# %% [markdown]
# How far may the rack reach, and what wall does it take?
#
# A tray of tomato crates behind a delivery tricycle, invented for this page: two rails on four
# bolted mounts, 22 kg of crates at the far end. A longer reach is handier to load; a thicker wall
# costs weight. The table answers for each pair of the two.

# %%
import trivet

REACHES = [0.12, 0.18, 0.24, 0.30, 0.36]  # m beyond the rear mounts
WALLS = ["1.5 mm", "2 mm", "2.5 mm", "3 mm"]
BASE, HALF = 0.22, 0.16  # m between front and rear mounts; half the width


def rack(reach, wall):
    """The rack with a reach in m and a wall of the rails; numbers in SI, or text with a unit."""
    frame = trivet.Frame(f"crate rack, reach {reach * 1e3:.0f} mm, wall {wall}")
    frame.add_stock("rail", "square tube", width="20 mm", wall=wall, material="E235")
    frame.add_stock("cross", "round tube", diameter="3/4 in", wall="16 ga BWG", material="E235")
    for side, y in (("left", HALF), ("right", -HALF)):
        frame.add_joint(f"front {side}", 0, y, 0)
        frame.add_joint(f"rear {side}", -BASE, y, 0)
        frame.add_joint(f"end {side}", -BASE - reach, y, 0)
        frame.add_tube(f"{side} rail", [f"front {side}", f"rear {side}", f"end {side}"], "rail")
        frame.add_mount(f"front {side}", "position")
        frame.add_mount(f"rear {side}", "position")
    frame.add_tube("middle", ["rear left", "rear right"], "cross")
    frame.add_tube("back", ["end left", "end right"], "cross")
    frame.add_cargo("crates", (-BASE - 0.6 * reach, 0, "180 mm"),
                    ["rear left", "rear right", "end left", "end right"], mass="22 kg", grip="soft")
    frame.add_case("parked", (0, 0, -1))
    frame.add_case("pothole", (0, 0, -4))
    frame.set_limits(yield_=1.5, droop="3 mm")
    return frame


# %% One frame first: does it hold, and what governs?
first = rack(0.18, "2 mm")
checks = first.check()
print(f"{first.name}, as far as it was checked:")
for line, verdict in checks.verdicts.items():
    print(f"  {line:9} {verdict:12} {checks.sentence(line)}")

# %% Every pair: the use of what is worst (overload or cracking), and the droop over the pothole.
uses, droops = {}, {}
for wall in WALLS:
    for reach in REACHES:
        result = rack(reach, wall).solve()
        found = result.check()
        uses[wall, reach] = max(found.worst(line).utilisation for line in ("overload", "cracking"))
        droops[wall, reach] = result.droop("pothole").droop

print("\nused where it is worst; droop over the pothole")
print("wall    " + "".join(f"{reach * 1e3:>17.0f} mm" for reach in REACHES))
for wall in WALLS:
    cells = [f"{trivet.used_text(uses[wall, reach]):>8}  "
             f"{trivet.show(droops[wall, reach], 'length', 2):>8}  " for reach in REACHES]
    print(f"{wall:<8}" + "".join(cells))

# %% The longest reach of each wall, and what it weighs.
longest = {}
for wall in WALLS:
    good = [reach for reach in REACHES if uses[wall, reach] <= 0.85]
    longest[wall] = max(good, default=None)
    reach = longest[wall]
    said = "none of these" if reach is None else (
        f"{reach * 1e3:.0f} mm, {rack(reach, wall).mass:.2f} kg")
    print(f"wall {wall}: at most {said}")

# %% What that does not say.
print("\nNot checked: " + "; ".join(what for what, _, _ in checks.omissions))
for caution in trivet.cautions():
    print("* " + caution)

# %% In a notebook, these show a table and two pictures (with matplotlib).
checks  # noqa: B018 - the last line of a cell is shown
# first.plot(); first.solve().plot("pothole")
