"""Write the reviewed text of the demonstration's summary anew.

A change that is meant gets a line in docs/changes.md, and the text is read through again.  python tests/houses/make.py
"""

from test_demo_summary import GOLDEN, summary

if __name__ == "__main__":
    GOLDEN.write_text(summary(), encoding="utf-8")
    print(f"written: {GOLDEN}")
