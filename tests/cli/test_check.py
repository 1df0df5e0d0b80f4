"""trivet check: what it prints, its exit status, and that text and JSON say the same."""

import re

import pytest
from conftest import bracket, run

# Of the bracket, mm: I = 20^4/12, As = A k with k between 5/6 and 0.86 (Cowper).
BENDING = 100 * 800**3 / (3 * 210e3 * 20**4 / 12)


def test_holds(write):
    call = run("check", write(bracket()))
    assert (call.status, call.err) == (0, "")
    assert call.out.startswith("Bracket\n\nVerdict: HOLDS, as far as it was checked\n")
    assert "arm at A carries 60 of 157 N/mm^2 in push (used 38 %)" in " ".join(call.out.split())


def test_verdict_and_mounts_stand_before_droop_weight_and_details(starter):
    out = run("check", starter).out
    order = ["Verdict:", "Mounts:", "Droop,", "Weight", "Checks", "Cases", "NOT CHECKED\n", "Before you trust it"]
    places = [out.index(heading) for heading in order]
    assert places == sorted(places)


def test_fails(write):
    call = run("check", write(bracket(force="-300 N")))
    assert call.status == 1
    text = " ".join(call.out.split())
    assert "Verdict: FAILS" in text
    assert "carries 180 of 157 N/mm^2 in push (used 115 %); a taller section" in text


def test_tight_still_exits_as_holding(write):
    # 141 of 156.7 N/mm^2: 90 %.
    call = run("check", write(bracket(force="-235 N")))
    assert call.status == 0
    assert "Verdict: TIGHT" in call.out


def test_without_a_strength_there_is_no_answer(write):
    call = run("check", write(bracket(yield_=None)))
    assert (call.status, call.err) == (3, "")
    assert "Verdict: NOT CHECKED\n" in call.out
    assert "yield of arm: the yield strength of its material is not given" in call.out


def test_droop_within_its_limit_does_not_make_up_for_strength(write):
    call = run("check", write(bracket(yield_=None, more="limits: {droop: 50 mm}\n")))
    assert (call.status, call.err) == (3, "")
    assert "overload  NOT CHECKED" in call.out and "service   HOLDS" in call.out


def test_a_frame_that_swings_is_no_answer(write):
    path = write(bracket(hold="position"))
    call = run("check", path)
    assert (call.status, call.out) == (3, "")
    assert call.err.startswith(f"trivet: {path}: ")
    assert "A" in call.err
    as_json = run("check", path, "--json")
    assert as_json.status == 3
    assert "free" in as_json.json["error"]["problem"]


EXPECT = "expect:\n  - {what: droop, at: B, case: push, value: %s mm, within: 1 %%, by: P L^3 / (3 E I)}\n"


def test_a_hand_calculation_that_agrees(write):
    call = run("check", write(bracket(more=EXPECT % f"{BENDING:.6f}")))
    assert call.status == 0
    assert "P L^3 / (3 E I)" in call.out
    row = next(line for line in call.out.splitlines() if line.startswith("  droop  B"))
    assert " yes " in row


def test_a_hand_calculation_that_disagrees_is_a_failure(write):
    path = write(bracket(more=EXPECT % f"{1.05 * BENDING:.6f}"))
    call = run("check", path)
    assert call.status == 1
    assert "Verdict: HOLDS" in call.out
    assert re.search(r"^  droop  B .* NO ", call.out, re.M)
    as_json = run("check", path, "--json")
    assert as_json.status == 1
    assert as_json.json["expect"][0]["agrees"] is False


def number_after(label, text, unit):
    return float(re.search(rf"{label} +([0-9.]+) *{unit}", text).group(1))


def test_droop_of_the_bracket(write):
    out = run("check", write(bracket())).out
    shown = number_after("push", out[out.index("Droop") :], "mm")
    # Three digits are shown; shear adds P L/(G As), 0.29 % at most of it here.
    assert BENDING <= shown + 0.05 and shown <= BENDING + 100 * 800 / (81e3 * 400 * 5 / 6) + 0.05


def test_text_and_json_say_the_same(starter):
    text = run("check", starter).out
    answer = run("check", starter, "--json").json
    assert f"Verdict: {answer['verdict'].upper()}" in text
    assert number_after("frame", text[text.index("Weight") :], "kg") == pytest.approx(
        answer["mass"], rel=5e-3
    )
    worst = max(answer["checks"], key=lambda check: check["utilisation"])
    rows = text[text.index("Checks: the worst of each kind") :].splitlines()[1:]
    at = next(i for i, row in enumerate(rows) if "%" in row)
    first = rows[at] + rows[at + 1]  # a long place stands in a line of its own
    assert first.split()[0] == f"{100 * worst['utilisation']:.0f}"
    assert worst["check"] in first and worst["where"] in first and worst["case"] in first
    assert number_after(worst["check"], first, "N/mm") == pytest.approx(
        worst["demand"] / 1e6, rel=5e-3
    )
    for case, result in answer["cases"].items():
        lowest = min(joint["move"][2] for joint in result["joints"].values())
        shown = number_after(re.escape(case), text[text.index("Droop") :], "mm")
        assert shown >= -1e3 * lowest * (1 - 5e-3)


def test_mounts_in_text_are_the_most_of_all_cases(starter):
    text = run("check", starter).out
    answer = run("check", starter, "--json").json
    mounts = text[text.index("Mounts:") : text.index("Weight")]
    for mount in next(iter(answer["cases"].values()))["mounts"]:
        up = {case: r["mounts"][mount]["force"][2] for case, r in answer["cases"].items()}
        case = max(up, key=up.get)
        row = next(line for line in mounts.splitlines() if line.split()[:1] == [mount])
        assert case in row
        numbers = [float(n) for n in re.findall(r"([0-9.]+) +N\b", row)]
        assert any(n == pytest.approx(up[case], rel=5e-3) for n in numbers)


def test_rigid_mounts_are_called_rigid(write):
    assert "taken as rigid" in run("check", write(bracket())).out
    sprung = run("check", write(bracket(hold="[x, y, z, rx, rz], spring: {ry: 9000 N*m/rad}")))
    assert sprung.status in (0, 1)
    assert "taken as rigid" not in sprung.out


def test_cargo_is_a_ledger(starter):
    row = next(
        line
        for line in run("check", starter).out.splitlines()
        if line.startswith("  box ") and "kg" in line
    )
    assert "box 2.5 kg, contents 7.5 kg" in row


def test_answers_come_in_the_units_of_the_file(write):
    text = bracket().replace("name: Bracket", "name: Bracket\nunits: {length: in, mass: lb, force: lbf}")
    text = text.replace("[0, 0, 0]", "[0 mm, 0 mm, 0 mm]").replace("800 mm, 0, 0", "800 mm, 0 mm, 0 mm")
    text = text.replace("force: [0, 0, -100 N]", "force: [0 N, 0 N, -100 N]")
    call = run("check", write(text))
    assert call.status == 0, call.err
    assert "psi" in call.out and " lbf" in call.out and " in " in call.out
    assert "N/mm^2" not in call.out


def test_the_word_safe_is_nowhere(starter, write):
    for path in (starter, write(bracket()), write(bracket(force="-900 N"), "other.yaml")):
        assert "safe" not in run("check", path).out.lower().replace("factor of safety", "")


def test_a_file_without_a_name_is_called_by_its_path(write):
    path = write(bracket().replace("name: Bracket\n", ""))
    call = run("check", path)
    assert (call.status, call.err) == (0, "")
    assert call.out.splitlines()[0] == str(path)


def test_same_file_same_bytes(starter):
    first = run("check", starter, "--json").out
    assert all(run("check", starter, "--json").out == first for _ in range(3))


def test_long_and_foreign_names_keep_the_columns(write):
    text = bracket().replace("push:", '"Schlagloch, schwer beladen, Überlänge":')
    call = run("check", write(text))
    assert call.status == 0, call.err
    assert "Schlagloch, schwer beladen, Überlänge" in call.out
