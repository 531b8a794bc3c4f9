import os
import signal
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
WORK = """
from exchange.test_worker_pool import linger
from builder.exchange.worker_pool import WorkerPool
with WorkerPool(linger, 2, None) as pool:
    list(pool.run(range(2)))
"""
SOON_S = 20


def linger(_):
    print(os.getpid(), flush=True)
    time.sleep(60)


def is_gone(process_id):
    try:
        return Path(f"/proc/{process_id}/stat").read_text().rpartition(")")[2].split()[0] == "Z"
    except (FileNotFoundError, ProcessLookupError):
        return True


def test_workers_end_in_the_middle_of_a_task_when_their_process_is_killed():
    paths = {**os.environ, "PYTHONPATH": f"{ROOT}:{ROOT / 'tests'}"}
    command = [sys.executable, "-c", WORK]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=paths) as process:
        workers = [int(process.stdout.readline()) for _ in range(2)]
        process.send_signal(signal.SIGKILL)
    end = time.monotonic() + SOON_S
    while not all(is_gone(worker) for worker in workers) and time.monotonic() < end:
        time.sleep(0.05)
    assert all(is_gone(worker) for worker in workers)
