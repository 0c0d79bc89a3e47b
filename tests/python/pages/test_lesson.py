"""What the player takes home: one page that is right, complete, safe to open and fit to look at."""

import re
import time

import browser
import html5lib
import numpy as np
import pandas as pd
import pytest
from invented import DEMO, practice
from matplotlib.figure import Figure

import whimbrel as wb
from whimbrel.pages.lesson import PICTURES, TEMPLATES
from whimbrel.plots import lesson as plot_lesson
from whimbrel.sessions.lesson_content import club_lessons, low_points
from whimbrel.statistics.ellipse import expected_within
from whimbrel.units import deg, mm, yd
from whimbrel.words.session import of_spread, say

XHTML, SVG = "{http://www.w3.org/1999/xhtml}", "{http://www.w3.org/2000/svg}"
TITLES = [picture.title for picture in PICTURES]
NASTY = '"><script>alert(1)</script><img src=x onerror=alert(2)>&amp; $\\frac{a}{'


def parsed(page):
    """The page as a tree, by the HTML standard's rules; any error in it is an exception."""
    return html5lib.HTMLParser(strict=True).parse(page)


def words_of(page):
    return " ".join("".join(parsed(page).itertext()).split())


def titles_of(page):
    return [svg[0].text for svg in parsed(page).iter(f"{SVG}svg")]


def is_whole(page):
    """Valid, alone, without a script, every id there once and every reference to one that is there."""
    tree = parsed(page)
    elements = list(tree.iter())
    ids = [e.get("id") for e in elements if e.get("id")]
    assert len(ids) == len(set(ids))
    assert not {e.tag.split("}")[-1].lower() for e in elements if isinstance(e.tag, str)} & {
        "script", "link", "iframe", "object", "embed", "img", "base", "form",
    }  # fmt: skip
    for e in elements:
        for name, x in e.attrib.items():
            assert not name.lower().startswith("on")
            if name.endswith("href") or name.endswith("src"):
                assert x.startswith("#") or x.startswith("data:image/png;base64,")
                assert not x.startswith("#") or x[1:] in ids
            assert all(there in ids for there in re.findall(r"url\(#([^)]*)\)", x))
    assert "http://" not in page and "https://" not in page and "@import" not in page
    assert all(svg.get("aria-labelledby") in ids for svg in tree.iter(f"{SVG}svg"))
    return tree


@pytest.fixture(scope="module")
def demo():
    return wb.session(DEMO, target=wb.targets.Corridor(25 * yd))


@pytest.fixture(scope="module")
def page(demo):
    return wb.lesson(demo, called="invented_practice.csv")


def club(session, name="7 iron"):
    return next(lesson for lesson in club_lessons(session, session.groups[0].player) if lesson.club == name)


def test_the_page_is_whole_and_has_every_picture(page):
    tree = is_whole(page)
    assert [t for t in titles_of(page) if t.endswith(", 7 iron")] == [f"{t}, 7 iron" for t in TITLES]
    assert [t for t in titles_of(page) if t.endswith(", driver")] == [f"{t}, driver" for t in TITLES[:-1]]
    assert "No picture “Before and after”" in words_of(page)
    headings = [e.text for e in tree.iter(f"{XHTML}h2")]
    assert headings == ["In three sentences", "7 iron", "driver", "Clubs side by side", "The table", "Cautions"]
    found = next(e for e in tree.iter(f"{XHTML}section") if e.get("class") == "finding")
    assert [li[0].text for li in found.iter(f"{XHTML}li")] == ["Typical", "Change", "Next"]


def test_the_page_keeps_the_cautions_and_says_what_its_intervals_take_for_granted(page):
    words = words_of(page)
    for part in (
        wb.cautions.CAUTION,
        wb.cautions.HOW_SURE,
        "take strikes as independent",
        "80 % of further strikes",
    ):
        assert part in words


def test_the_text_of_pictures_is_text(page):
    texts = {"".join(t.itertext()) for t in parsed(page).iter(f"{SVG}text")}
    assert {"before", "after", "sideways, yd", "club path, °", "straight", "carry on average"} <= texts


def test_the_numbers_on_the_page_are_the_sessions(demo, page):
    words = words_of(page)
    for group in demo.groups:
        for name, spread in group.spreads.items():
            assert of_spread(name, spread, "yards") in words
    frame, played = pd.read_csv(DEMO), wb.table(DEMO)
    after = (frame["club"] == "7 iron") & (frame["block"] == "after")
    carry = played.loc[after.to_numpy(), "computed_carry_yd"]
    assert f"with the 7 iron (block after, 20 strikes) the ball carried {carry.mean():.1f} yd (mean, SD " \
        f"{carry.std():.1f} yd)" in words.lower().replace("sd", "SD")  # fmt: skip
    assert f"{frame.loc[after, 'clubhead_speed_mph'].mean():.1f} mph ± " in words
    first = demo.scatters[0].scatter.parts[0]
    assert f"half its spread would take {-first.halved / yd:.1f} yd off" in words
    assert f"{demo.targets[1].play.hits} of 20 in the corridor" in words


def test_the_typical_shot_is_that_of_the_medians_and_its_ledger_adds_up(demo):
    lesson = club(demo)
    frame = pd.read_csv(DEMO).query("club == '7 iron' and block == 'after'")
    hit = lesson.typical.shot.delivery
    assert hit.face_angle == pytest.approx(frame["face_angle_deg"].median() * deg)
    assert hit.strike_toe == pytest.approx(frame["strike_toe_mm"].median() * mm)
    total = lesson.typical.reference_carry + sum(share.share for share in lesson.typical.carry)
    assert total == pytest.approx(lesson.typical.shot.carry, abs=1e-9)


def test_the_worst_shot_is_the_farthest_from_the_line_and_held_against_the_typical_one(demo, page):
    lesson = club(demo)
    played = wb.table(DEMO, accuracy="reference")
    after = played[(played["club"] == "7 iron") & (played["block"] == "after")]
    worst = after["computed_offline_yd"].abs().idxmax()
    assert lesson.worst.label == worst  # its line in the file
    assert lesson.worst.explained.shot.offline / yd == pytest.approx(after["computed_offline_yd"][worst], abs=1e-6)
    assert lesson.worst.against.reference == lesson.typical.shot.delivery
    assert f"Strike {worst}, {abs(after['computed_offline_yd'][worst]):.1f} yd from the target line" in words_of(
        page
    )


def drawn(lesson, name, units="yards"):
    return getattr(plot_lesson, name)(lesson, Figure().subplots(), units)


def points(axes):
    """The single marks of a picture, without its legend's and its crosses."""
    lines = [line for line in axes.lines if line.get_linestyle() == "None" and line.get_marker() in "^oD"]
    return [np.column_stack(line.get_data()) for line in lines if len(line.get_xdata())]


def test_landings_are_drawn_where_the_balls_came_down(demo):
    played = wb.table(DEMO)
    axes = drawn(club(demo), "landings")
    for block, shown in (("before", points(axes)[0]), ("after", points(axes)[1])):
        rows = played[(played["club"] == "7 iron") & (played["block"] == block)]
        there = rows[["computed_offline_yd", "computed_downrange_yd"]].to_numpy()
        assert np.allclose(shown, there, atol=1e-6)
    assert axes.get_xlabel() == "sideways, yd"
    metric = drawn(club(demo), "landings", "metric")
    assert np.allclose(points(metric)[0], points(axes)[0] * yd) and metric.get_xlabel() == "sideways, m"


def test_along_the_thick_line_the_typical_shot_flies_straight_and_off_it_it_does_not(demo):
    lesson = club(demo)
    axes = drawn(lesson, "path_and_face")
    straight = next(c for c in axes.collections if list(c.levels) == [0.0]).get_paths()[0].vertices
    for path, face in straight[:: max(1, len(straight) // 5)]:
        shot = wb.what_if(lesson.typical.shot, delivery={"club_path": path * deg, "face_angle": face * deg})
        assert abs(shot.flight.curve) < 0.05  # the lines are straight between steps of the grid
    off = wb.what_if(lesson.typical.shot, delivery={"club_path": path * deg, "face_angle": (face + 1) * deg})
    assert off.flight.curve > 1.0


def test_low_points_are_those_of_the_arc_command(demo):
    lesson = club(demo)
    ahead = low_points(lesson, lesson.last)
    row = pd.read_csv(DEMO).query("club == '7 iron' and block == 'after'").iloc[3]
    hit = wb.Delivery(1.0, row["club_path_deg"] * deg, row["attack_angle_deg"] * deg)
    arc = wb.arcs.arc_of(hit, plane_inclination=row["plane_inclination_deg"] * deg)
    assert ahead[3] == pytest.approx(arc.low_point_ahead)


def test_without_a_measured_plane_the_assumed_one_is_named_as_common_practice():
    frame = pd.read_csv(DEMO).drop(columns="plane_inclination_deg")
    words = words_of(wb.lesson(frame))
    assert "a plane of 62°, assumed by the trade's common practice" in words
    assert "the plane of the table" not in words


def test_strike_points_lie_toward_the_toe_which_is_on_the_other_side_for_a_left_hander(demo):
    right = drawn(club(demo), "on_the_face")
    left = drawn(club(wb.session(DEMO, club_set=wb.clubs.left_handed())), "on_the_face")
    toe = pd.read_csv(DEMO).query("club == '7 iron' and block == 'before'")["strike_toe_mm"].to_numpy()
    assert np.allclose(points(right)[0][:, 0], -toe) and np.allclose(points(left)[0][:, 0], toe)
    assert right.get_xlabel().startswith("toe") and left.get_xlabel().startswith("heel")


def test_changes_are_drawn_in_smallest_changes_worth_having(demo):
    axes = drawn(club(demo), "what_changed")
    first = next(c for c in demo.changes[0].comparison.changes if c.answer == "changed")
    assert points(axes)[0][0, 0] == pytest.approx(first.change / first.smallest)
    assert say(first.change, first.quantity, "yards", True) in {text.get_text() for text in axes.texts}


def test_an_ellipse_holds_the_next_strike_as_often_as_it_says(draw):
    held = []
    for n in (5, 12, 40):
        for _ in range(1500):
            x, y = np.array([[3.0, 0.0], [2.0, 1.0]]) @ draw.standard_normal((2, n + 1)) + 7.0
            held.append((n, expected_within(x[:n], y[:n]).holds(x[n:], y[n:])[0]))
    for n in (5, 12, 40):  # three standard errors of 1,500 draws
        assert np.mean([inside for m, inside in held if m == n]) == pytest.approx(0.8, abs=3 * np.sqrt(0.16 / 1500))
    assert expected_within(np.arange(3.0), np.arange(3.0) ** 2) is None
    assert expected_within(np.arange(9.0), np.arange(9.0)) is None


def test_for_a_left_hander_the_words_change_sides():
    frame = pd.read_csv(DEMO)
    mirrored = frame.assign(club_path_deg=-frame["club_path_deg"], face_angle_deg=-frame["face_angle_deg"])
    right, left = words_of(wb.lesson(frame)), words_of(wb.lesson(mirrored, hand="left"))
    assert "for a right-hander" in right and "for a left-hander" in left and "right-hander" not in left
    assert "travelling 2.1° right of the target (in-to-out)" in right
    assert "travelling 2.1° left of the target (in-to-out)" in left


def test_metric_pages_speak_of_metres_only(demo):
    page = wb.lesson(demo, units="metric")
    words = words_of(page).replace("18 m (20 yd)", "").replace("corridor:25yd", "")
    assert " yd" not in words and "mph" not in re.sub(r"1 mph more clubhead speed", "", words)
    assert "sideways, m" in words and " m/s" in words


def test_names_are_escaped_and_shown_to_the_letter(tmp_path):
    frame = pd.read_csv(DEMO).assign(player=NASTY)
    frame["block"] = frame["block"].replace({"after": NASTY, "before": "_$x$\x01"})
    file = tmp_path / "<b>&practice.csv"
    frame.to_csv(file, index=False)
    page = wb.lesson(file)
    is_whole(page)
    words = words_of(page)
    assert NASTY in words and "<b>&practice.csv" in words and "Lesson: " + NASTY in words
    assert "<script" not in page and "<b>" not in page and "\x01" not in page
    texts = {"".join(t.itertext()) for t in parsed(page).iter(f"{SVG}text")}
    assert plot_lesson.short(NASTY) in texts and any("$x$" in text for text in texts)


def test_templates_escape_all_they_are_given():
    """No template marks text as safe or turns the escaping off."""
    templates = sorted(TEMPLATES.glob("*.j2"))
    assert len(templates) == 3 and (TEMPLATES / "lesson.css").is_file()
    for template in templates:
        assert not re.search(r"\|\s*safe|autoescape|Markup", template.read_text(encoding="utf-8")), template


def test_hostile_clubs_and_notes_are_text_wherever_they_stand():
    frame = pd.read_csv(DEMO)
    frame["club"] = frame["club"].replace({"driver": NASTY})
    page = wb.lesson(frame.rename(columns={"strike": NASTY}), called=NASTY)
    is_whole(page)
    assert "<script" not in page and words_of(page).count(NASTY) >= 4


def test_the_same_table_makes_the_same_page(demo, page):
    assert wb.lesson(demo, called="invented_practice.csv") == page


def test_three_strikes_give_values_and_pictures_and_no_claims():
    page = wb.lesson(practice(40).iloc[[0, 1, 2]].assign(block="one"))
    is_whole(page)
    words = words_of(page)
    assert [t.split(",")[0] for t in titles_of(page)] == TITLES[:-1]
    assert "too few for more" in words and "only one block" in words and "too few to share out" in words
    assert "SD" not in words.split("Centre and spread")[1].split("Columns")[0].split("Cautions")[0]
    assert "further strikes" not in words


def test_one_strike_is_explained_and_called_one():
    page = wb.lesson(practice(40).iloc[[0]])
    is_whole(page)
    words = words_of(page)
    assert "From a table: 1 strike." in words and "Your typical shot" in words
    assert "Not explained: its block has only one strike." in words


def test_no_strikes_are_said_to_be_none():
    page = wb.lesson(practice(40).iloc[:0])
    is_whole(page)
    assert "Nothing to show yet" in page and "No strikes: the table has a header and no rows." in words_of(page)
    assert wb.cautions.CAUTION in words_of(page)


def test_bad_rows_are_counted_and_ten_of_them_listed(tmp_path):
    lines = DEMO.read_text().splitlines()
    for i in range(1, 13):
        lines[i] = lines[i].replace("7 iron,before,", "7 iron,before,fast")
    file = tmp_path / "practice.csv"
    file.write_text("\n".join(lines))
    words = words_of(wb.lesson(file))
    assert "12 with something wrong; their other values count" in words and "and 2 more." in words
    assert len(re.findall(r"\d+: clubhead_speed_mph", words)) == 10
    assert "before (20)" in words


@pytest.mark.parametrize(
    ("kept", "there", "gone"),
    [
        (["carry_yd", "offline_yd"], ["Landings from above", "Before and after"], "club_path and face_angle"),
        (["club_path_deg", "face_angle_deg"], ["Path against face", "Before and after"], "strike_toe or"),
        (["attack_angle_deg"], ["Low point along the ground", "Before and after"], "club_path and face_angle"),
        (["strike_toe_mm"], ["Strike points on the face", "Before and after"], "attack_angle"),
        (["ball_speed_mph", "launch_angle_deg", "spin_rate_rpm"],
         ["Landings from above", "Flights from the side", "Before and after"], "club_path and face_angle"),
    ],
)  # fmt: skip
def test_a_picture_without_its_columns_is_left_out_and_says_what_it_needs(kept, there, gone, draw):
    frame = practice(40)
    n = len(frame)
    frame = frame.assign(carry_yd=draw.normal(150, 5, n), offline_yd=draw.normal(0, 6, n),
                         ball_speed_mph=draw.normal(115, 2, n), launch_angle_deg=draw.normal(17, 1, n),
                         spin_rate_rpm=draw.normal(6500, 300, n))  # fmt: skip
    page = wb.lesson(frame[["club", "block", *kept]])
    is_whole(page)
    assert [t.split(",")[0] for t in titles_of(page)] == there
    words = words_of(page)
    assert f"it would need {gone}" in words and words.count("No picture") == len(TITLES) - len(there)
    assert "what to work on cannot be said: it needs clubhead_speed" in words


def test_a_measured_ball_beside_a_delivery_is_told_from_its_replay():
    frame = practice(40).assign(carry_yd=150.0, offline_yd=np.linspace(-9, 12, 40))
    words = words_of(wb.lesson(frame))
    assert "It was measured to carry 150.0 yd and end 12.0 yd right; what follows explains its replay" in words


def test_each_player_gets_a_part_and_one_may_have_the_page_alone():
    frame = pd.concat([practice(24).assign(player="Ann"), practice(24, seed=2).assign(player="Bo")])
    both, one = wb.lesson(frame), wb.lesson(frame, player="Bo")
    is_whole(both)
    assert words_of(both).count("In three sentences") == 2 and "Lesson: Ann, Bo" in both
    assert "Ann" not in one and "Lesson: Bo" in one
    with pytest.raises(wb.InputError, match="there is no strike of 'Cy'; there are: 'Ann', 'Bo'"):
        wb.lesson(frame, player="Cy")


def test_wrong_questions_are_refused_with_what_is_accepted(demo):
    with pytest.raises(wb.InputError, match="units is 'feet'; accepted: yards, metric"):
        wb.lesson(demo, units="feet")
    with pytest.raises(wb.InputError, match="hand is 'both'; accepted: right, left"):
        wb.lesson(DEMO, hand="both")
    with pytest.raises(wb.InputError, match="has already been read"):
        wb.lesson(demo, hand="left")
    with pytest.raises(wb.InputError, match="a club set of your own has its own"):
        wb.lesson(DEMO, hand="left", club_set=wb.clubs)


def test_the_command_writes_the_page_whole_or_not_at_all(command, tmp_path):
    out = tmp_path / "lesson.html"
    code, said, _ = command("lesson", DEMO, "--out", out, "--units", "metric", "--target", "corridor:23m")
    assert code == 0 and "55 strikes." in said and f"Lesson: {out}" in said and "can injure or kill" in said
    assert out.read_text(encoding="utf-8") == wb.lesson(DEMO, units="metric", target=wb.targets.Corridor(23.0))
    before = out.read_text()
    code, _, err = command("lesson", DEMO, "--out", out, "--player", "Cy")
    assert code == 2 and "there is no strike of 'Cy'" in err and out.read_text() == before
    code, _, err = command("lesson", DEMO, "--out", tmp_path / "lesson.pdf")
    assert code == 2 and "accepted: .html, .htm" in err


def test_a_file_without_rows_is_refused_and_a_page_is_written_of_a_row_without_numbers(command, tmp_path):
    header, strike = DEMO.read_text().splitlines()[:2]
    empty, page = tmp_path / "empty.csv", tmp_path / "lesson.html"
    empty.write_text(header)
    code, _, err = command("lesson", empty, "--out", page)
    assert code == 2 and "empty.csv" in err and not page.exists()
    empty.write_text(f"{header}\n{','.join('?' for _ in strike.split(','))}\n")
    code, said, _ = command("lesson", empty, "--out", page)
    assert code == 1 and "1 with something wrong" in said
    is_whole(page.read_text())


def test_above_3000_strikes_the_points_become_an_image():
    few, many = (wb.lesson(practice(n), quantities=["offline", "carry"]) for n in (3000, 3001))
    assert "data:image/png" not in few and many.count("data:image/png") >= 4
    assert "drawn as one image" in many and "drawn as one image" not in few
    assert len(many) < 0.5 * len(few)


needs_browser = pytest.mark.skipif(browser.found() is None, reason="no chromium: apt install chromium")

#: Where an element leaves the window, a text its picture, or two texts of a picture lie upon each other.
FAULTS = """(() => {
  const wide = document.documentElement.clientWidth, faults = [];
  if (document.documentElement.scrollWidth > wide) faults.push('the page scrolls sideways');
  for (const e of document.body.querySelectorAll('*')) {
    const box = e.getBoundingClientRect();
    if (!e.closest('svg') && box.width && (box.left < -0.5 || box.right > wide + 0.5))
      faults.push(`${e.tagName} ${e.textContent.slice(0, 40)} leaves the window`);
    if (!e.closest('svg') && e.scrollWidth > e.clientWidth + 1 && e.clientWidth) faults.push(`${e.tagName} clips`);
  }
  for (const svg of document.querySelectorAll('svg')) {
    const frame = svg.getBoundingClientRect(), name = svg.querySelector('title').textContent;
    if (frame.width < 200 || svg.querySelectorAll('path').length < 5) faults.push(`${name} is empty`);
    const texts = [...svg.querySelectorAll('text')].map(t => [t.textContent, t.getBoundingClientRect()]);
    texts.forEach(([words, a], i) => {
      if (a.left < frame.left - 1 || a.right > frame.right + 1 || a.top < frame.top - 1 ||
          a.bottom > frame.bottom + 1)
        faults.push(`${name}: ${words} is clipped`);
      for (const [other, b] of texts.slice(i + 1))
        if (a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 3 && b.top < a.bottom - 3)
          faults.push(`${name}: ${words} lies on ${other}`);
    });
  }
  return faults;
})()"""


@pytest.fixture(scope="module")
def window():
    with browser.page() as opened:
        yield opened


@needs_browser
@pytest.mark.parametrize("units", ["yards", "metric"])
def test_on_phone_and_desk_nothing_is_clipped_overlaps_or_is_asked_for(window, demo, units, tmp_path):
    file = tmp_path / "lesson.html"
    file.write_text(wb.lesson(demo, units=units), encoding="utf-8")
    window.asked.clear()
    for width in (390, 1280):
        window.open(file.as_uri(), width)
        assert window.value("innerWidth") == width
        assert window.value(FAULTS) == []
        window.picture(tmp_path / f"{width}.png")
        assert (tmp_path / f"{width}.png").stat().st_size > 100_000
    assert {url for url in window.asked if not url.startswith("data:")} == {file.as_uri()}


@needs_browser
def test_the_browser_would_notice_a_request_and_what_is_clipped(window, page, tmp_path):
    spoilt = page.replace("<main>", '<main><img src="http://127.0.0.1:9/x" alt=""><p style="width:2000px">wide</p>')
    file = tmp_path / "spoilt.html"
    file.write_text(spoilt, encoding="utf-8")
    window.asked.clear()
    window.open(file.as_uri(), 390)
    faults = " ".join(window.value(FAULTS))
    assert "scrolls sideways" in faults and "leaves the window" in faults and "http://127.0.0.1:9/x" in window.asked


@needs_browser
def test_on_paper_nothing_is_clipped(window, page, tmp_path):
    file = tmp_path / "lesson.html"
    file.write_text(page, encoding="utf-8")
    window.open(file.as_uri(), round((210 - 28) / 25.4 * 96))  # A4 less its margins
    window.call("Emulation.setEmulatedMedia", media="print")
    try:
        assert window.value(FAULTS) == []
    finally:
        window.call("Emulation.setEmulatedMedia", media="")
    window.pdf(tmp_path / "lesson.pdf")
    printed = (tmp_path / "lesson.pdf").read_bytes()
    assert printed.startswith(b"%PDF")
    width, height = map(float, re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", printed)[0])
    assert (width, height) == pytest.approx((595.3, 841.9), abs=1)


@needs_browser
def test_hostile_names_fit_and_run_nothing(window, tmp_path):
    frame = pd.read_csv(DEMO).assign(player="W" * 300)
    frame["block"] = frame["block"].replace({"after": NASTY * 3, "before": "long " * 60})
    file = tmp_path / "lesson.html"
    file.write_text(wb.lesson(frame), encoding="utf-8")
    window.asked.clear()
    window.open(file.as_uri(), 390)
    assert window.value(FAULTS) == []
    assert {url for url in window.asked if not url.startswith("data:")} == {file.as_uri()}


@pytest.mark.thorough
@pytest.mark.parametrize("strikes", [3, 55, 3_000, 100_000])
def test_pages_of_any_size_are_whole_and_small(strikes, capsys):
    table = pd.read_csv(DEMO) if strikes == 55 else practice(strikes)
    start = time.perf_counter()
    session = wb.session(table)
    read = time.perf_counter()
    page = wb.lesson(session)
    with capsys.disabled():
        print(f"\n{strikes:>7,} strikes: session {read - start:.1f} s, page {time.perf_counter() - read:.1f} s, "
              f"{len(page.encode()) / 1e6:.2f} MB")  # fmt: skip
    is_whole(page)
    assert len(page.encode()) < 2.5e6
    assert sum(group.n for group in session.groups) == strikes
