"""One of several server processes in test_writers.py: four threads that append as fast as they can.

Arguments: the database's URL, the process's name, how many records each thread appends. It says
"ready", waits for a line on its input, and prints the name of every exception it saw.
"""

import sys
from concurrent.futures import ThreadPoolExecutor

from records_cast import quiz
from sqlalchemy import create_engine

from app.database import prepare_engine, writing_to
from app.records.ledger.door import append

THREADS = 4


def main(url: str, name: str, each: str) -> None:
    engine = create_engine(url)
    prepare_engine(engine)

    def write(thread: int) -> None:
        for number in range(int(each)):
            event = quiz(f"{name}-{thread}-{number}", "2024-01-12", person=f"{name}-{thread}")
            with writing_to(engine) as connection:
                append(connection, event)

    print("ready", flush=True)
    sys.stdin.readline()
    with ThreadPoolExecutor(THREADS) as pool:
        for done in [pool.submit(write, thread) for thread in range(THREADS)]:
            problem = done.exception()
            if problem is not None:
                print(f"{type(problem).__name__}: {problem}", flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
