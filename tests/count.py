"""Adds up JUnit results: prints ``N passed, N failed`` and fails if anything failed or nothing ran."""

from __future__ import annotations

import sys
import xml.etree.ElementTree as ElementTree


def counts(path: str) -> tuple[int, int]:
    """Passed and failed in one file; a skipped test counts as neither."""
    passed = failed = 0
    for case in ElementTree.parse(path).iter("testcase"):
        bad = case.get("status") == "fail" or case.find("failure") is not None or case.find("error") is not None
        left_out = case.find("skipped") is not None
        failed += bad
        passed += not bad and not left_out
        if bad:
            print(f"failed: {case.get('classname', '')} {case.get('name')}")
    return passed, failed


if __name__ == "__main__":
    results = [counts(path) for path in sys.argv[1:]]
    passed, failed = sum(p for p, _ in results), sum(f for _, f in results)
    print(f"{passed} passed, {failed} failed")
    sys.exit(failed > 0 or any(p + f == 0 for p, f in results))
