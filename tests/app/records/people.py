"""Many people at once: writers in several processes, each remembering what was answered for; nothing of it is lost.

    python -m tests.app.records.people SECONDS [--database URL] [--data-dir FOLDER]

Eight writers in each of three processes edit fields of their own and of others, and add rows, in the records of four
athletes. Afterwards every value that was answered for is there: as the field's value, or in its history.
"""

import argparse
import json
import os
import subprocess
import sys
import tempfile
import threading
import time
from collections import defaultdict
from pathlib import Path

from app.records.acts import CONFLICT, KEPT, Add, Edit, Hand
from app.records.history import history
from app.records.opening import open_store
from app.records.place import VARIABLE, Place, find_place
from app.records.reads import athlete_data

ROOT = Path(__file__).resolve().parents[3]
PROCESSES, THREADS, ATHLETES = 3, 8, 4
CODES = tuple(f"P{one}" for one in range(ATHLETES))


def work(place: Place, seconds: float, process: int) -> None:
    """The writers of one process; prints what was answered for, as JSON."""
    store = open_store(place)
    until = time.monotonic() + seconds
    kept: list[list[object]] = []
    waits: list[float] = []
    troubles: list[str] = []
    lock = threading.Lock()

    def write(number: int) -> None:
        tab = f"{process}/{number}"
        code = CODES[number % ATHLETES]
        data = athlete_data(store, code)
        uid, own, shared = data.athlete.uid, None, data.readings[0].uid
        place_in_turn, seen = 0, data.version
        while time.monotonic() < until:
            place_in_turn += 1
            value = f"{10 + place_in_turn % 4000 / 100:.2f}"
            began = time.perf_counter()
            try:
                if own is None or place_in_turn % 10 == 0:
                    acted = store.act(uid, Add("reading", {"speed_m_s": value}), Hand(tab))
                    own = acted.outcomes[0].row
                    done: list[object] = ["add", code, own, float(value)]
                elif place_in_turn % 7 == 0:
                    acted = store.act(uid, Edit("reading.speed_m_s", value, shared), Hand(tab, seen=seen))
                    done = ["shared", code, shared, float(value)]
                else:
                    acted = store.act(uid, Edit("reading.speed_m_s", value, own), Hand(tab))
                    done = ["own", code, own, float(value)]
            except Exception as error:
                troubles.append(repr(error))
                return
            waits.append(time.perf_counter() - began)
            seen = acted.version
            if acted.outcomes[0].state == KEPT:
                with lock:
                    kept.append([*done, acted.version])
            elif acted.outcomes[0].state != CONFLICT and acted.outcomes[0].state != "same":
                troubles.append(acted.outcomes[0].state)

    threads = [threading.Thread(target=write, args=(number,)) for number in range(THREADS)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    store.close()
    print(json.dumps({"kept": kept, "waits": waits, "troubles": troubles}))


def crowd(place: Place, seconds: float) -> str:
    """Let all write, and see that nothing is lost; what was done, in words."""
    store = open_store(place)
    for code in CODES:
        store.act(store.new_athlete(code, Hand("crowd")), Add("reading", {"speed_m_s": "30"}), Hand("crowd"))
    store.close()
    url = "" if place.url is None else place.url.render_as_string(hide_password=False)
    words = [sys.executable, "-m", "tests.app.records.people", str(seconds), "--data-dir", str(place.folder)]
    env = os.environ | {VARIABLE: url, "PYTHONPATH": str(ROOT)}
    running = [
        subprocess.Popen([*words, "--process", str(number)], cwd=ROOT, env=env, stdout=subprocess.PIPE, text=True)
        for number in range(PROCESSES)
    ]
    told = [json.loads(one.communicate()[0]) for one in running]
    troubles = [trouble for one in told for trouble in one["troubles"]]
    assert troubles == [], troubles[:5]
    kept = [done for one in told for done in one["kept"]]
    check(place, kept)
    waits = sorted(wait for one in told for wait in one["waits"])
    middle, high = (1000 * waits[round(share * (len(waits) - 1))] for share in (0.5, 0.95))
    return f"{len(kept)} saves by {PROCESSES * THREADS} writers, {middle:.1f} ms at the median, {high:.0f} ms at 95 %"


def check(place: Place, kept: list[list[object]]) -> None:
    """Every value that was answered for is there, and every version was given once."""
    store = open_store(place)
    versions: dict[str, list[object]] = defaultdict(list)
    last: dict[tuple[object, object], tuple[int, float]] = {}
    for _, code, row, value, version in kept:
        versions[str(code)].append(version)
        if (code, row) not in last or version > last[code, row][0]:
            last[code, row] = (version, value)
    assert kept, "nobody wrote"
    for code in CODES:
        assert len(set(versions[code])) == len(versions[code]), "a version was given twice"
        data = athlete_data(store, code)
        assert data.version == 2 + len(versions[code]), (data.version, len(versions[code]))
        found = {one.uid: one.speed_m_s for one in data.readings}
        wanted = {row: value for (whose, row), (_, value) in last.items() if whose == code}
        assert {row: found.get(row) for row in wanted} == wanted, "lost"
        added = {row for kind, whose, row, _, _ in kept if kind == "add" and whose == code}
        assert added <= set(found)
        newest = history(store, data.athlete.uid, most=50)
        assert [line.version for line in newest] == sorted((line.version for line in newest), reverse=True)
    store.close()


def main(words: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("seconds", type=float)
    parser.add_argument("--process", type=int)
    parser.add_argument("--database")
    parser.add_argument("--data-dir")
    args = parser.parse_args(words)
    environ = os.environ if args.database is None else {VARIABLE: args.database}
    place = find_place(args.data_dir or tempfile.mkdtemp(prefix="people-"), None, environ)
    if args.process is not None:
        work(place, args.seconds, args.process)
    else:
        print(crowd(place, args.seconds))
    return 0


if __name__ == "__main__":
    sys.exit(main())
