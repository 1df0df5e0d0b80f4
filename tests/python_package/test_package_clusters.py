"""Sweeps over a scheduler and two worker processes on this machine, one of which is killed."""
import contextlib
import os
import signal
import subprocess
import sys
import time

import pytest

import trivet
from varied import bracket, content, write_varied

distributed = pytest.importorskip("distributed")

# A chunk takes some tenths of a second: whoever looks for a busy worker finds one.
MANY, CHUNK = 24000, 1500


def start(*words):
    """A process of Dask, as its own commands start them."""
    return subprocess.Popen(
        [sys.executable, "-B", "-c", "from distributed.cli import dask_{0} as command; "
         "command.main()".format(words[0]), *words[1:]],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


class Cluster:
    """A scheduler and two workers of one thread each, nobody to start them anew."""

    def __init__(self, folder):
        self.file = str(folder / "scheduler.json")
        self.folder = folder
        self.workers = []
        self.scheduler = start("scheduler", "--host", "127.0.0.1", "--port", "0", "--no-dashboard",
                               "--scheduler-file", self.file)
        for _ in range(2):
            self.add_worker()
        self.client = distributed.Client(scheduler_file=self.file, timeout=60)
        self.client.wait_for_workers(2, timeout=60)

    def add_worker(self):
        self.workers.append(start(
            "worker", "--scheduler-file", self.file, "--no-nanny", "--nthreads", "1",
            "--no-dashboard", "--local-directory", str(self.folder)))

    def kill_a_busy_one(self):
        """Kills a worker that has chunks in work; gives how many it had."""
        pids = self.client.run(os.getpid)
        deadline = time.monotonic() + 30
        while time.monotonic() < deadline:
            for address, keys in self.client.processing().items():
                if keys:
                    (worker,) = [one for one in self.workers if one.pid == pids[address]]
                    worker.send_signal(signal.SIGKILL)
                    assert worker.wait(30) == -signal.SIGKILL
                    return len(keys)
        raise AssertionError("no worker was ever busy")

    def close(self):
        with contextlib.suppress(Exception):
            self.client.close(timeout=5)
        for process in [*self.workers, self.scheduler]:
            process.kill()
            process.wait(30)


@pytest.fixture(scope="module")
def cluster(tmp_path_factory):
    made = Cluster(tmp_path_factory.mktemp("cluster"))
    yield made
    made.close()


@pytest.fixture
def healthy(cluster):
    """The cluster with two workers, whatever the test before did."""
    if len(cluster.client.nthreads()) < 2:
        cluster.add_worker()
        cluster.client.wait_for_workers(2, timeout=60)
    return cluster


def test_rows_come_in_order_and_are_those_of_one_machine(healthy, tmp_path):
    for path in write_varied(tmp_path):
        sweep, told_of = trivet.Sweep(path), []
        stream = trivet.sweep(path, client=healthy.client, chunk=9,
                              progress=lambda done, count: told_of.append((done, count)))
        rows = stream.gather()
        assert rows.equals(sweep.run())
        assert told_of[-1] == (sweep.count, sweep.count) and told_of == sorted(told_of)
    seen = [row.number for row in trivet.sweep(path, client=healthy.client, chunk=50)]
    assert seen == list(range(sweep.count))


def test_both_workers_take_part(healthy):
    rows = trivet.sweep(trivet.Sweep.of_text(bracket(MANY)), client=healthy.client, chunk=CHUNK)
    next(rows)
    busy = {address for address, keys in healthy.client.processing().items() if keys}
    deadline = time.monotonic() + 30
    while len(busy) < 2 and time.monotonic() < deadline:
        next(rows)
        busy |= {address for address, keys in healthy.client.processing().items() if keys}
    rows.close()
    assert len(busy) == 2


def test_stores_have_the_content_of_one_machine(healthy, tmp_path):
    for path in write_varied(tmp_path):
        one = trivet.sweep(path, store=tmp_path / "one.sqlite", checks=True)
        many = trivet.sweep(path, store=tmp_path / "many.sqlite", checks=True,
                            client=healthy.client, chunk=10)
        assert content(one.path) == content(many.path)
        # Again: there is nothing to do, and another sweep is refused before any work is done.
        assert content(trivet.sweep(path, store=many.path, checks=True, client=healthy.client,
                                    chunk=10).path) == content(one.path)
        with pytest.raises(trivet.BadValue):
            trivet.sweep(trivet.Sweep.of_text(bracket()), store=many.path, client=healthy.client)
        os.unlink(one.path)
        os.unlink(many.path)
    assert sorted(place.suffix for place in tmp_path.iterdir()) == [".yaml"] * 4


def test_a_worker_that_is_killed_costs_nothing_but_time(healthy):
    sweep, killed = trivet.Sweep.of_text(bracket(MANY)), []

    def progress(done, count):
        if done > MANY // 5 and not killed:
            killed.append(healthy.kill_a_busy_one())

    rows = trivet.sweep(sweep, client=healthy.client, chunk=CHUNK, progress=progress).gather()
    assert killed[0] > 0 and len(healthy.client.nthreads()) == 1
    assert rows.equals(sweep.run(workers=2))


def test_a_worker_that_is_killed_leaves_the_store_whole(healthy, tmp_path):
    sweep, killed = trivet.Sweep.of_text(bracket(MANY)), []

    def progress(done, count):
        if done > MANY // 5 and not killed:
            killed.append(healthy.kill_a_busy_one())

    store = trivet.sweep(sweep, store=tmp_path / "many.sqlite", client=healthy.client, chunk=CHUNK,
                         progress=progress)
    assert killed[0] > 0 and store.is_finished
    assert content(store.path) == content(sweep.store(tmp_path / "one.sqlite").path)
    assert sorted(os.listdir(tmp_path)) == ["many.sqlite", "one.sqlite"]


def test_a_run_that_was_stopped_goes_on(healthy, tmp_path):
    sweep, told_of = trivet.Sweep.of_text(bracket(1000)), []

    def progress(done, count):
        told_of.append(done)
        if done >= 500 and len(told_of) < 8:
            raise KeyError("enough")

    path = tmp_path / "many.sqlite"
    with pytest.raises(KeyError):
        trivet.sweep(sweep, store=path, client=healthy.client, chunk=100, progress=progress)
    kept = [name for name in os.listdir(tmp_path) if name.endswith(".parts")]
    assert len(kept) == 1 and len(os.listdir(tmp_path / kept[0])) == 5
    told_of.clear()
    store = trivet.sweep(sweep, store=path, client=healthy.client, chunk=100,
                         progress=lambda done, count: told_of.append(done))
    assert told_of == [600, 700, 800, 900, 1000]
    assert content(path) == content(sweep.store(tmp_path / "one.sqlite").path)
    assert os.listdir(tmp_path).count("many.sqlite") == 1 and len(os.listdir(tmp_path)) == 2
    assert len(store) == 1000


def test_workers_need_no_files_of_the_caller(healthy, tmp_path):
    path = write_varied(tmp_path)[0]
    sweep = trivet.Sweep(path)
    want = sweep.run()
    for place in tmp_path.iterdir():
        place.unlink()
    assert trivet.sweep(sweep, client=healthy.client).gather().equals(want)


def test_what_goes_wrong_is_told(healthy, tmp_path):
    sweep = trivet.Sweep.of_text(bracket(20))
    for client in (3, object(), "tcp://127.0.0.1:1"):
        with pytest.raises(trivet.WrongArgument):
            trivet.sweep(sweep, client=client)
    with pytest.raises(trivet.BadValue):
        trivet.sweep(sweep, client=healthy.client, part=(1, 2))
    with pytest.raises(trivet.BadValue):
        trivet.sweep(sweep, client=healthy.client, chunk=0)
    with pytest.raises(trivet.BadValue):  # raised by a worker, told here
        trivet.sweep(sweep, client=healthy.client, workers=1000).gather()
    with pytest.raises(trivet.Unwritable):
        trivet.sweep(sweep, client=healthy.client, store=tmp_path / "no" / "folder.sqlite")


class Deadly:
    """A client that does the work here, but says so often that a chunk killed its workers."""

    def __init__(self, times):
        self.times, self.asked, self.cancelled = times, 0, 0

    def nthreads(self):
        return {"here": 2}

    def submit(self, function, *arguments, pure):
        assert pure is False  # the same chunk may be asked for again
        self.asked += 1
        return Told(self, function, arguments)

    def cancel(self, futures):
        self.cancelled += len(futures)


class Told:
    def __init__(self, client, function, arguments):
        self.client, self.work = client, (function, arguments)

    def result(self):
        if self.client.times > 0:
            self.client.times -= 1
            raise distributed.KilledWorker("chunk", None, 4)
        function, arguments = self.work
        return function(*arguments)


def test_a_chunk_that_is_given_up_is_handed_in_anew():
    sweep = trivet.Sweep.of_text(bracket(60))
    client = Deadly(7)
    assert trivet.sweep(sweep, client=client, chunk=10).gather().equals(sweep.run())
    assert client.asked == 6 + 7 and client.cancelled == 0
    client = Deadly(10 ** 6)
    with pytest.raises(trivet.Interrupted, match="given up"):
        trivet.sweep(sweep, client=client, chunk=10).gather()
    assert client.cancelled == 6  # nothing stays under way
