"""The plain script that a first run is measured beside (see bench/first-run.ts).

Reads all captures of a folder, keeps each compressed with its hash in SQLite, with what every column did from one read of
a machine to its next, and writes sales.csv as coilbook does. It trusts what it reads: no check, no checksum, no restart,
reset or roll-over, no cash; it holds all columns of all reads in memory.

    python3 peer.py FOLDER MACHINES.csv BOOK.db SALES.csv

Standard library only. Where descriptor 3 is open it tells there what it took, as report-usage.ts does.
"""

import csv
import hashlib
import json
import os
import resource
import sqlite3
import sys
import zlib

SCHEMA = """
CREATE TABLE capture (id INTEGER PRIMARY KEY, name TEXT, sha256 BLOB UNIQUE, size INTEGER, bytes BLOB);
CREATE TABLE read (id INTEGER PRIMARY KEY, machine TEXT, clock TEXT);
CREATE TABLE sale (
  read_from INTEGER, read_to INTEGER, col TEXT, sold INTEGER, value INTEGER, test INTEGER, free INTEGER,
  price_from INTEGER, price_to INTEGER,
  PRIMARY KEY (read_from, read_to, col)
) WITHOUT ROWID;
"""

HEAD = [
    "machine", "location", "route", "column", "product", "from", "to", "sold", "value", "test", "free", "price_from",
    "price_to", "price_plan", "loss", "unexplained", "currency", "decimals", "flags",
]


def money(amount):
    """Minor units of two decimals as plain text."""
    sign = "-" if amount < 0 else ""
    return f"{sign}{abs(amount) // 100}.{abs(amount) % 100:02}"


def parse(content):
    """The asset number, clock and columns of a capture: id, product, price, vends, value, test vends, free vends."""
    asset = clock = None
    columns = []
    column = product = price = sold = value = test = free = None
    for line in content.decode("latin-1").splitlines():
        cells = line.split("*")
        name = cells[0]
        if name == "PA1":
            if column is not None:
                columns.append((column, product, price, sold, value, test, free))
            column, price, product = cells[1], int(cells[2]), cells[3]
        elif name == "PA2":
            sold, value = int(cells[1]), int(cells[2])
        elif name == "PA3":
            test = int(cells[1])
        elif name == "PA4":
            free = int(cells[1])
        elif name == "ID1":
            asset = cells[6]
        elif name == "ID5":
            day, time = cells[1], cells[2]
            clock = f"20{day[:2]}-{day[2:4]}-{day[4:]} {time[:2]}:{time[2:]}:00"
    if column is not None:
        columns.append((column, product, price, sold, value, test, free))
    return asset, clock, columns


def main(folder, machines, book, sales):
    with open(machines, newline="", encoding="utf-8") as file:
        roster = {row["asset"]: row for row in csv.DictReader(file)}
    db = sqlite3.connect(book)
    db.execute("PRAGMA journal_mode = WAL")
    db.execute("PRAGMA synchronous = FULL")
    db.executescript(SCHEMA)
    reads = {}
    number = 0
    for path, folders, names in os.walk(folder):
        folders.sort()
        for name in sorted(names):
            with open(os.path.join(path, name), "rb") as file:
                content = file.read()
            packed = zlib.compress(content, 1)
            row = (number, name, hashlib.sha256(content).digest(), len(content), packed)
            db.execute("INSERT INTO capture VALUES (?, ?, ?, ?, ?)", row)
            asset, clock, columns = parse(content)
            db.execute("INSERT INTO read VALUES (?, ?, ?)", (number, roster[asset]["machine"], clock))
            reads.setdefault(asset, []).append((clock, number, columns))
            number += 1
            if number % 200 == 0:
                db.commit()
    db.commit()
    with open(sales, "w", newline="", encoding="utf-8") as file:
        table = csv.writer(file)
        table.writerow(HEAD)
        by_route = sorted(reads, key=lambda asset: (roster[asset]["route"], roster[asset]["machine"]))
        for asset in by_route:
            row = roster[asset]
            machine, location, route, currency = row["machine"], row["location"], row["route"], row["currency"]
            of_machine = sorted(reads[asset])
            for (clock_from, read_from, before), (clock_to, read_to, after) in zip(of_machine, of_machine[1:]):
                known = {column[0]: column for column in before}
                kept, lines = [], []
                for column, product, price, sold, value, test, free in after:
                    _, _, price_from, sold_from, value_from, test_from, free_from = known[column]
                    sold, value, test, free = sold - sold_from, value - value_from, test - test_from, free - free_from
                    kept.append((read_from, read_to, column, sold, value, test, free, price_from, price))
                    lines.append((
                        machine, location, route, column, product, clock_from, clock_to, sold, money(value), test, free,
                        money(price_from), money(price), "", "", money(value - sold * price), currency, 2, "",
                    ))
                db.executemany("INSERT INTO sale VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)", kept)
                table.writerows(lines)
    db.commit()
    db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    db.close()


def report_usage():
    usage = resource.getrusage(resource.RUSAGE_SELF)
    told = {"cpuMicros": round((usage.ru_utime + usage.ru_stime) * 1e6), "peakKilobytes": usage.ru_maxrss}
    try:
        os.write(3, json.dumps(told).encode())
    except OSError:
        pass  # run by hand


if __name__ == "__main__":
    main(*sys.argv[1:])
    report_usage()
