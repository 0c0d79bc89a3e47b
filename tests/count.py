"""Adds up JUnit results: prints why each failure failed, then ``N passed, N failed``; fails if anything failed or
nothing ran."""

from __future__ import annotations

import sys
import xml.etree.ElementTree as ElementTree

#: How many lines of what a failed test printed are shown, its last.
SHOWN = 40


def counts(path: str) -> tuple[int, int]:
    """Passed and failed in one file; a skipped test counts as neither."""
    passed = failed = 0
    for case in ElementTree.parse(path).iter("testcase"):
        bad = case.get("status") == "fail" or case.find("failure") is not None or case.find("error") is not None
        left_out = case.find("skipped") is not None
        failed += bad
        passed += not bad and not left_out
        if bad:
            print(f"failed: {case.get('classname', '')} {case.get('name')} ({float(case.get('time', 0)):.1f} s)")
            for line in printed(case)[-SHOWN:]:
                print(f"    {line}")
    return passed, failed


def printed(case: ElementTree.Element) -> list[str]:
    """What a test printed, and how it failed: CTest says that in an attribute, pytest in the text."""
    lines: list[str] = []
    for told in ("system-out", "failure", "error"):
        for element in case.findall(told):
            lines += (element.text or element.get("message") or "").rstrip().splitlines()
    return lines


if __name__ == "__main__":
    results = [counts(path) for path in sys.argv[1:]]
    passed, failed = sum(p for p, _ in results), sum(f for _, f in results)
    print(f"{passed} passed, {failed} failed")
    sys.exit(failed > 0 or any(p + f == 0 for p, f in results))
