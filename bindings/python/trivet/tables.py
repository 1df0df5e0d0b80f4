"""Results as pandas data frames. pandas is asked for only here."""
from typing import TYPE_CHECKING, Any, List, Sequence

from . import errors
from ._c import word

if TYPE_CHECKING:
    from .checks import Checks, Rates
    from .result import Result
    from .variants import Input, Variants


def _pandas() -> Any:
    try:
        import pandas
    except ImportError:
        raise ImportError("tables need pandas: install it, or take the arrays and records as they "
                          "are") from None
    return pandas


def _labels(result: "Result", what: str) -> Any:
    from .result import FORCES, MOVES
    frame = result.frame
    if not isinstance(what, str):
        raise errors.WrongArgument(f"is {type(what).__name__}", thing="table",
                                   remedy="choose from: moves, reactions, span ends")
    if what == "moves":
        return result.moves, "joint", list(frame.joints), list(MOVES)
    if what == "reactions":
        return result.reactions, "mount", list(frame.mounts), [
            "Fx", "Fy", "Fz", "Mx", "My", "Mz"]
    if what == "span ends":
        ends = result.span_ends
        tubes = frame.tubes
        names: List[Any] = []
        for index, span in enumerate(result.spans):
            names += [(index, tubes[span.tube], end) for end in ("start", "end")]
        return ends.reshape(ends.shape[0], -1, 6), "span", names, list(FORCES)
    raise errors.BadName(f"is {what!r}", thing="table",
                         remedy="choose from: moves, reactions, span ends")


def result_table(result: "Result", what: str = "moves") -> Any:
    """One row a case and joint (mount, end of a span), SI units; the numbers are copied."""
    pandas = _pandas()
    values, kind, names, columns = _labels(result, what)
    cases = list(result.cases)
    if kind == "span":
        rows = [(case, *name) for case in cases for name in names]
        index = pandas.MultiIndex.from_tuples(rows, names=["case", "span", "tube", "end"])
    else:
        index = pandas.MultiIndex.from_product([cases, names], names=["case", kind])
    return pandas.DataFrame(values.reshape(-1, 6).copy(), index=index, columns=columns)


def checks_table(checks: "Checks") -> Any:
    """One row a check, worst first within its line; SI units."""
    rows = []
    for index, check in enumerate(checks):
        rows.append({"line": check.line, "check": check.check, "where": check.where,
                     "case": check.in_case, "used": check.utilisation, "demand": check.demand,
                     "limit": check.limit, "of": check.dimension, "verdict": check.verdict,
                     "place": checks.place(index)})
    columns = ["line", "check", "where", "case", "used", "demand", "limit", "of", "verdict",
               "place"]
    return _pandas().DataFrame(rows, columns=columns)


def variant_columns(inputs: Sequence["Input"]) -> List[str]:
    """Names of the columns: what varies, then the answers; one that is there twice is numbered."""
    from .variants import TABLE
    names: List[str] = []
    for index, one in enumerate(inputs):
        name, taken = one.name, {other.lower() for other in [*names, *TABLE, "number"]}
        names.append(f"{name} (input {index + 1})" if name.lower() in taken else name)
    return names + list(TABLE)


def variants_table(variants: "Variants") -> Any:
    """One row a variant, named by its number."""
    from .variants import LINES, NUMBERS
    names = variant_columns(variants.inputs)
    columns: List[Any] = [variants.column(one.name) for one in variants.inputs]
    columns += [[word("outcome", int(one)) for one in variants.outcomes], variants.reason]
    columns += [[word("verdict", int(one)) for one in variants.verdicts[:, line]]
                for line in range(len(LINES))]
    columns += [variants.used[:, line].copy() for line in range(len(LINES))]
    columns += [variants.check, variants.where, variants.in_case]
    columns += [getattr(variants, name) for name in NUMBERS]
    pandas = _pandas()
    return pandas.DataFrame(dict(zip(names, columns)),
                            index=pandas.Index(variants.numbers, name="number"))


def rates_table(rates: "Rates") -> Any:
    """One row a cargo, masses in kg; an empty name stands for all cargo together."""
    rows = [{"cargo": name, "given": rate.given, "most": rate.mass, "factor": rate.factor,
             "holds": rate.holds, "open": rate.is_open}
            for name, rate in zip(rates.names, rates)]
    return _pandas().DataFrame(rows, columns=["cargo", "given", "most", "factor", "holds", "open"])
