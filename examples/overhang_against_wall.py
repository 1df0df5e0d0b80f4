# %% [markdown]
# How far may the rack reach, and what wall does it take?
#
# A tray of tomato crates behind a delivery tricycle, invented for this page: two rails on four
# bolted mounts, 22 kg of crates at the far end. A longer reach is handier to load; a thicker wall
# costs weight. The table answers for each pair of the two.

# %%
import numpy as np

import trivet

RACK = """
trivet: 1
name: crate rack
units: {length: mm}
let: {reach: 180 mm, wall: 2 mm, base: 220 mm, half: 160 mm}
stock:
  rail: {shape: square tube, width: 20 mm, wall: wall, material: E235}
  cross: {shape: round tube, diameter: 3/4 in, wall: 16 ga BWG, material: E235}
joints:
  front left: [0, half, 0]
  rear left: [-base, half, 0]
  end left: [-base - reach, half, 0]
  front right: [0, -half, 0]
  rear right: [-base, -half, 0]
  end right: [-base - reach, -half, 0]
tubes:
  left rail: {through: [front left, rear left, end left], stock: rail}
  right rail: {through: [front right, rear right, end right], stock: rail}
  middle: {through: [rear left, rear right], stock: cross}
  back: {through: [end left, end right], stock: cross}
mounts:
  front left: {hold: position}
  rear left: {hold: position}
  front right: {hold: position}
  rear right: {hold: position}
cargo:
  crates: {mass: 22 kg, centre: [-base - 0.6 * reach, 0, 180 mm], grip: soft,
           on: [rear left, rear right, end left, end right]}
cases:
  parked: {gravity: [0, 0, -1]}
  pothole: {gravity: [0, 0, -4]}
limits: {yield: 1.5, droop: 3 mm}
vary:
  let:
    wall: [1.5 mm, 2 mm, 2.5 mm, 3 mm]
    reach: [120 mm, 180 mm, 240 mm, 300 mm, 360 mm]
"""

# %% One frame first, as the file stands: does it hold, and what governs?
study = trivet.Sweep.of_text(RACK)
first = study.frame
checks = first.check()
print(f"{first.name}, reach 180 mm, wall 2 mm, as far as it was checked:")
for line, verdict in checks.verdicts.items():
    print(f"  {line:9} {verdict:12} {checks.sentence(line)}")

# %% Every pair: the use of what is worst (overload or cracking), and the most droop.
rows = trivet.sweep(study).gather()
walls, reaches = np.unique(rows.column("wall")), np.unique(rows.column("reach"))
uses = np.fmax(rows.used[:, 0], rows.used[:, 1]).reshape(len(walls), len(reaches))
droops, masses = rows.droop.reshape(uses.shape), rows.mass.reshape(uses.shape)

print("\nused where it is worst; droop over the pothole")
print("wall    " + "".join(f"{reach * 1e3:>17.0f} mm" for reach in reaches))
for i, wall in enumerate(walls):
    cells = [f"{trivet.used_text(use):>8}  {trivet.show(droop, 'length', 2):>8}  "
             for use, droop in zip(uses[i], droops[i])]
    print(f"{trivet.show(wall, 'length'):<8}" + "".join(cells))

# %% The longest reach of each wall, and what it weighs.
longest = {}
for i, wall in enumerate(walls):
    good = np.flatnonzero(uses[i] <= 0.85)
    longest[wall] = reaches[good[-1]] if len(good) else None
    said = "none of these" if not len(good) else (
        f"{reaches[good[-1]] * 1e3:.0f} mm, {masses[i, good[-1]]:.2f} kg")
    print(f"wall {trivet.show(wall, 'length')}: at most {said}")

# %% The lightest pair that holds with no more than 3 mm of droop, and how sure that is.
pick = study.pick("mass")
print(f"\nlightest that holds: {study.describe(pick.best.number)}. {pick.proof}")

# %% What that does not say.
print("\nNot checked: " + "; ".join(what for what, _, _ in checks.omissions))
for caution in trivet.cautions():
    print("* " + caution)

# %% In a notebook, these show a table and pictures; thousands of variants go into a store, or to
# the workers of a distributed.Client.
checks  # noqa: B018 - the last line of a cell is shown
# rows.table(); first.solve().plot("pothole")
# trivet.sweep("rack.yaml", store="runs.sqlite", workers=2)
# trivet.sweep("rack.yaml", client=client)
