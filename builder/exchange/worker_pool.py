"""Works through many tasks, in this process or in several, reading them no faster than done."""

import multiprocessing
import os
import signal
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from threading import Thread
from typing import Generic, Self, TypeVar

Task = TypeVar("Task")
Result = TypeVar("Result")


class WorkerPool(Generic[Task, Result]):
    """Processes that work; each has one task in hand, and they end with this one.

    An executor of `concurrent.futures` loses every task where one process dies, and cannot end one.

    `work` must be something that another process can be sent; what it keeps stays in its process.
    """

    def __init__(self, work: Callable[[Task], Result], jobs: int, lost: Result) -> None:
        """Start none yet; `lost` is the result of a task whose process has ended."""
        self.work, self.jobs, self.lost = work, jobs, lost
        self.workers: dict[Connection, BaseProcess] = {}
        self.idle: list[Connection] = []
        self.busy: dict[Connection, Task] = {}

    def __enter__(self) -> Self:
        """Return the pool."""
        return self

    def __exit__(self, *_: object) -> None:
        """End every process, also in the middle of a task."""
        for process in self.workers.values():
            process.terminate()
        for pipe, process in self.workers.items():
            process.join()
            pipe.close()

    def run(self, tasks: Iterable[Task]) -> Iterator[tuple[Task, Result]]:
        """Yield each task with its result, as they come."""
        if self.jobs == 1:
            yield from ((task, self.work(task)) for task in tasks)
            return
        for task in tasks:
            while not self.idle and len(self.workers) >= self.jobs:
                yield from self.collect()
            pipe = self.idle.pop() if self.idle else self.start()
            pipe.send(task)
            self.busy[pipe] = task
        while self.busy:
            yield from self.collect()

    def start(self) -> Connection:
        """Start one more process."""
        context = multiprocessing.get_context("spawn")
        here, there = context.Pipe()
        process = context.Process(target=serve, args=(self.work, there), daemon=True)
        # An interrupt from the keyboard reaches every process; only this one is to answer it.
        usual = signal.signal(signal.SIGINT, signal.SIG_IGN)
        try:
            process.start()
        finally:
            signal.signal(signal.SIGINT, usual)
        there.close()
        self.workers[here] = process
        return here

    def collect(self) -> Iterator[tuple[Task, Result]]:
        """Wait until a worker is done, and yield the results."""
        for pipe in [pipe for pipe in wait(list(self.busy)) if isinstance(pipe, Connection)]:
            task, result = self.busy.pop(pipe), self.lost
            try:
                result = pipe.recv()
                self.idle.append(pipe)
            except (EOFError, OSError):
                self.workers.pop(pipe).join()
                pipe.close()
            yield task, result


def serve(work: Callable[[Task], Result], pipe: Connection) -> None:
    """Work until the other end of the pipe is closed."""
    Thread(target=follow, daemon=True).start()
    with suppress(EOFError, OSError):
        while True:
            pipe.send(work(pipe.recv()))


def follow() -> None:
    """End this process, also in the middle of a task, when the one that started it has died."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os._exit(1)
