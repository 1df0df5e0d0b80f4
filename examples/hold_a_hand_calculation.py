# %% [markdown]
# Does the computer agree with the hand calculation?
#
# A hoist beam in a bicycle workshop, invented for this page: a rectangular tube on two posts 1.8 m
# apart, a pulley 0.6 m from the left post, 90 kg on it. By hand, from any textbook on strength of
# materials: a beam on two supports with one load off the middle.

# %%
import math

import trivet

LENGTH, A = 1.8, 0.6  # m
B = LENGTH - A
LOAD = 90 * 9.80665  # N

beam = trivet.Frame("hoist beam")
for name, x in (("left post", 0.0), ("pulley", A), ("right post", LENGTH)):
    beam.add_joint(name, x, 0, 0)
beam.add_stock("beam", "rectangular tube", height="60 mm", width="40 mm", wall="3 mm",
               material="E235")
beam.add_tube("beam", ["left post", "pulley", "right post"], "beam")
beam.add_mount("left post", ["x", "y", "z", "rx"])
beam.add_mount("right post", ["y", "z"])
beam.add_case("lifting")
beam.add_force("lifting", "pulley", (0, 0, -LOAD))
result = beam.solve()

# %% By hand.
section, material = beam.section("beam"), beam.material("beam")
E, I, G, A_s = material.E, section.second_moment[0], material.G, section.shear_area[1]
left = LOAD * B / LENGTH
bending = LOAD * A * B / LENGTH
stress = bending / section.elastic_modulus[0]
droop = LOAD * A ** 2 * B ** 2 / (3 * E * I * LENGTH)
shear = LOAD * A * B / (LENGTH * G * A_s)  # what the thin formula leaves out

# %% Side by side.
computed = {
    "reaction at the left post": (left, result.reaction("left post", "lifting")[2], "force"),
    "bending under the pulley": (bending, abs(result.span_ends[0, 0, 1, 4]), "moment"),
    "stress there": (stress, next(check.demand for check in result.check()
                                  if check.check == "yield"), "stress"),
    "droop, bending alone": (droop, -result.move("pulley", "lifting")[2], "length"),
    "droop with shear": (droop + shear, -result.move("pulley", "lifting")[2], "length"),
}
print(f"{'':28}{'by hand':>14}{'computed':>14}{'apart':>10}")
for what, (by_hand, found, dimension) in computed.items():
    print(f"{what:28}{trivet.show(by_hand, dimension, 5):>14}"
          f"{trivet.show(found, dimension, 5):>14}{found / by_hand - 1:>10.2%}")

# The first two follow from balance alone; the last from the same formula with shear.
for what in ("reaction at the left post", "bending under the pulley", "droop with shear"):
    by_hand, found, _ = computed[what]
    assert math.isclose(by_hand, found, rel_tol=1e-9), what

# %% Bending alone falls short by the shear give of the tube: that is the difference.
print(f"\nshear gives {trivet.show(shear, 'length', 3)} of "
      f"{trivet.show(droop + shear, 'length', 3)}")

# %% The working of the check, line by line, to be done again with a pocket calculator.
print("\n" + result.check().explain("yield"))
