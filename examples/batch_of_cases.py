# %% [markdown]
# Three hundred load cases in one go.
#
# A tripod stand for a wind gauge on a hut, invented for this page: three legs, a mast head. The wind
# comes from any side and at several strengths.
# All cases travel through one solution; NumPy looks for the worst.

# %%
import math

import numpy as np

import trivet

DIRECTIONS, STRENGTHS = 60, [80.0, 160.0, 240.0, 320.0, 400.0]

stand = trivet.Frame("wind gauge stand")
stand.add_stock("leg", "round tube", diameter="33.7 mm", wall="2.6 mm", material="S235")
stand.add_joint("head", 0, 0, "1.6 m")
for number in range(3):
    angle = 2 * math.pi * number / 3
    stand.add_joint(f"foot {number}", 0.5 * math.cos(angle), 0.5 * math.sin(angle), 0)
    stand.add_tube(f"leg {number}", [f"foot {number}", "head"], "leg")
    stand.add_mount(f"foot {number}", "position")
stand.add_cargo("gauge", (0, 0, 1.6), ["head"], mass="4 kg", grip="soft")

# %% A case a direction and strength: force at the head, weight always.
names = []
for strength in STRENGTHS:
    for step in range(DIRECTIONS):
        angle = 2 * math.pi * step / DIRECTIONS
        name = f"{strength:.0f} N from {360 * step // DIRECTIONS} degrees"
        stand.add_case(name, (0, 0, -1))
        stand.add_force(name, "head", (strength * math.cos(angle), strength * math.sin(angle), 0))
        names.append(name)
result = stand.solve()
print(f"{result.case_count} cases, {len(result.spans)} spans")

# %% Arrays are views of the library's memory: [case][mount][6] and [case][joint][6].
up = result.reactions[:, :, 2]
lift = np.unravel_index(np.argmin(up), up.shape)
print(f"most pull on a foot: {-up[lift]:.0f} N on {stand.mounts[lift[1]]}, {names[lift[0]]}")
sway = np.linalg.norm(result.moves[:, stand.joints.index('head'), :2], axis=1)
print(f"most sway of the head: {trivet.show(sway.max(), 'length')}, {names[int(sway.argmax())]}")

# %% The extremes inside each leg over all cases, found along the whole leg and not at its ends.
for number in range(3):
    pull, _, where = result.envelope(result.tube_spans(f"leg {number}")[0])["N"]
    print(f"leg {number}: pull from {pull.least:.0f} to {pull.most:.0f} N (most: {where})")

# %% Does it hold in all of them?
checks = result.check()
print(f"\n{checks.verdict}, as far as it was checked: {checks.sentence()}")
print("Not checked: " + "; ".join(what for what, _, _ in checks.omissions))

# %% With pandas, the same as a data frame.
try:
    table = result.table("reactions")
    print("\n" + table["Fz"].groupby("mount").agg(["min", "max"]).round(1).to_string())
except ImportError:
    print("\n(install pandas for tables)")
