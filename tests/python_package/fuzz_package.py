"""Random arguments to everything public: an exception of ours, a plain TypeError or the like, or a
result. Run by test_package_fuzzed.py in a process of its own, so that a crash is seen.

usage: fuzz_package.py EXAMPLES
"""
import inspect
import sys

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as draw

import trivet
from conftest import arm_of
from varied import bracket

# What Python itself says of wrong arguments; the rest is trivet.TrivetError.
PLAIN = (TypeError, ValueError, OverflowError, IndexError, KeyError, AttributeError,
         RecursionError)
WORDS = ["wall", "tip", "arm", "tube", "pulled", "box", "all", "position", "x", "ry", "rx", "stiff",
         "soft", "E235", "square tube", "round tube", "given values", "M6", "8.8", "1 mm", "2 kg",
         "1 1/4 in", "14 ga BWG", "900 N*m/rad", "-3 kN", "1e300 m", "rubber", "road", "two-up",
         "overload", "length", "", "A", "\0", "\ud800", "é" * 80, "(" * 50, "1/0 m", "moves"]
numbers = draw.one_of(draw.floats(), draw.floats(-1.0, 1.0), draw.integers(-3, 3),
                      draw.sampled_from([2 ** 31, -2 ** 31 - 1, 2 ** 63, 10 ** 400, 1e308]))
plain = draw.one_of(numbers, draw.sampled_from(WORDS), draw.text(max_size=8), draw.none(),
                    draw.booleans(), draw.binary(max_size=4))
listed = draw.one_of(draw.none(), draw.none(), plain, draw.lists(plain, max_size=7), draw.tuples(numbers, numbers, numbers),
                     draw.dictionaries(draw.sampled_from(WORDS), plain, max_size=3),
                     draw.builds(np.full, draw.integers(0, 7), draw.floats()),
                     draw.lists(draw.lists(numbers, max_size=4), max_size=4))
KEYS = ["mass", "items", "grip", "on", "hold", "spring", "axes", "moment", "at", "roll", "width",
        "wall", "diameter", "material", "limit_pull", "mount", "tube", "deck", "joint", "thread",
        "grade", "count", "pattern", "torque", "start", "end", "to_line", "kind", "sides", "throat",
        "run", "spot_count", "height", "force", "cargo", "yield_", "droop", "bolt_rule", "units",
        "case", "story", "source", "free", "bond", "into_stock", "clamped_stock", "length",
        "corners", "slots", "edge", "kerf", "gap", "aim", "bars", "bends", "ends", "sheet", "title",
        "path", "workers", "part", "checks", "store", "chunk", "catalogues", "client", "most",
        "runners_up", "progress", "only_worst", "first", "count", "file_name"]
# What fits an argument of that name: so that calls get far enough to do something.
FITTING = {"joint": "tip", "tube": "arm", "case": "pulled", "stock": "tube", "mount": "wall",
           "cargo": "box", "deck": "board", "on": "tip", "through": ["tip", "wall"],
           "force": (0.0, 0.0, -50.0), "moment": (1.0, 0.0, 0.0), "at": 0.2, "length": 0.1,
           "shape": "square bar", "centre": (0.3, 0.0, 0.1), "x": 0.1, "y": 0.2, "z": 0.3,
           "gravity": (0.0, 0.0, -1.0), "cases": {"pulled": 2.0}, "line": (0.0, 0.0, -5.0),
           "move": {"z": 1e-3}, "offset": (0.0, 0.01, 0.0), "joints": ["wall", "tip"],
           "kind": "road", "to": "parked", "give": "rubber", "springs": ["ry"], "bolts": 0,
           "readings": [("tip", 5.0, 0.01)], "text": "1 1/4 in", "dimension": "length",
           "factor": 1.5, "mass": 2.0, "warm": 20.0, "name": "M6", "direction": (0.0, 0.0, -1.0),
           "span": 0, "index": 0, "of": 0, "where": "arm", "line_": "overload", "points": 3,
           "outer": {"shape": "square tube", "width": 0.03, "wall": 0.002},
           "inner": {"shape": "round bar", "diameter": 0.02}, "number_of": 16, "value": 0.5,
           "utilisation": 0.9, "status": 30, "column": 1, "limit": 0.01, "story": "it stands",
           "result": arm_of().solve(), "path": "out", "table": "tubes", "number": 3, "first": 2,
           "piece": 0, "end": 1, "bar": 0, "round_": 1.0, "row": 1, "parts": ["a", "b"],
           "source": trivet.Sweep.of_text(bracket(9)), "least": "mass", "profile": {
               "shape": "square tube", "width": 0.03, "wall": 0.002}, "other": arm_of()}
STORE = None
NOT_THESE = {"plot"}  # drawings are looked at elsewhere; they take time


def public(thing):
    """Names of what can be called; properties are not asked, since they may be refused."""
    of = thing if thing is trivet else type(thing)
    return sorted(name for name in dir(of) if not name.startswith("_")
                  and name not in NOT_THESE and callable(getattr(of, name, None)))


def fitted(call, arguments, options):
    """As many arguments as the call takes; None becomes what fits an argument of that name."""
    try:
        parameters = inspect.signature(call).parameters.values()
    except (TypeError, ValueError):
        return arguments, options
    wanted = [one.name for one in parameters if one.kind is one.POSITIONAL_OR_KEYWORD]
    named = {one.name for one in parameters if one.kind is one.KEYWORD_ONLY}
    open_ended = any(one.kind is one.VAR_KEYWORD for one in parameters)
    filled = [FITTING.get(name) if value is None else value
              for name, value in zip(wanted, [*arguments, *[None] * len(wanted)])]
    return filled, {key: value for key, value in options.items()
                    if key in named or (open_ended and key not in wanted)}


def attempt(call, *arguments, **options):
    try:
        return call(*arguments, **options)
    except (trivet.TrivetError, *PLAIN) as error:
        assert not isinstance(error, trivet.MistakeInside), error
        str(error)
        return None


def counted(call, arguments, options):
    """Attempts a call with arguments that fit, and remembers what has once succeeded."""
    arguments, options = fitted(call, arguments, options)

    def noted():
        given = call(*arguments, **options)
        succeeded.add(call.__name__)
        return given

    return attempt(noted)


succeeded = set()


def rich():
    """A frame with something of everything to hit."""
    frame = arm_of()
    frame.add_cargo("box", (0.4, 0.0, 0.1), ["tip"], mass=5.0, grip="soft")
    frame.add_deck("board", ["tip"])
    frame.set_plate("board", corners=[(0.4, -0.1), (0.6, -0.1), (0.6, 0.1), (0.4, 0.1)])
    frame.add_case("parked", (0, 0, -1))
    return frame


calls = draw.tuples(draw.integers(0, 200), draw.lists(listed, max_size=5),
                    draw.dictionaries(draw.sampled_from(KEYS), listed, max_size=3))


def pick(thing, which):
    names = public(thing)
    return getattr(thing, names[which % len(names)])


@given(draw.lists(calls, min_size=1, max_size=6))
def fuzz_frames(steps):
    frame = rich()
    result = frame.solve()
    for which, arguments, options in steps:
        counted(pick(frame, which), arguments, options)
        result_now = attempt(frame.solve)
        if result_now is not None:
            attempt(result_now.check)
    assert result.moves.shape == (2, 2, 6)


@given(draw.lists(calls, min_size=1, max_size=6))
def fuzz_results(steps):
    frame = rich()
    result = frame.solve()
    things = [result, result.check(), frame.rate(), frame.losses(), frame.plan()]
    for which, arguments, options in steps:
        thing = things[which % len(things)]
        counted(pick(thing, which // len(things)), arguments, options)
        attempt(lambda thing=thing: thing[arguments[0]] if arguments else len(thing))


@given(draw.lists(calls, min_size=1, max_size=6))
def fuzz_sweeps(steps):
    frame, sweep = rich(), trivet.Sweep.of_text(bracket(9))
    things = [sweep, sweep.run(), sweep.pick(), frame.cut(), frame.cutting("board"),
              trivet.sweep(sweep, chunk=4), STORE]
    for which, arguments, options in steps:
        thing = things[which % len(things)]
        counted(pick(thing, which // len(things)), arguments, options)
        attempt(lambda thing=thing: thing[arguments[0]] if arguments else len(thing))
        attempt(repr, thing)


@given(calls)
def fuzz_module(step):
    which, arguments, options = step
    names = [name for name in public(trivet) if not isinstance(getattr(trivet, name), type)]
    counted(getattr(trivet, names[which % len(names)]), arguments, options)
    attempt(trivet.Frame, *arguments, **options)


@given(draw.text(max_size=200), draw.integers(0, 4000), draw.integers(0, 40))
def fuzz_text(text, place, cut):
    starter = trivet.starter_text()
    attempt(trivet.read_text, text)
    frame = attempt(trivet.read_text, starter[:place] + text + starter[place + cut:])
    if frame is not None:
        attempt(lambda: frame.check().json())


def main(examples):
    global STORE
    STORE = trivet.Sweep.of_text(bracket(9)).store("fuzzed.sqlite")
    for target in (fuzz_frames, fuzz_results, fuzz_sweeps, fuzz_module, fuzz_text):
        settings(max_examples=examples, deadline=None, database=None, derandomize=True,
                 suppress_health_check=list(HealthCheck))(target)()
        print(target.__name__, "done", flush=True)
    # Arguments that are always refused would show nothing.
    print(len(succeeded), "of the functions succeeded at least once")


if __name__ == "__main__":
    main(int(sys.argv[1]))
