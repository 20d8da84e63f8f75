import threading

import pytest

from game.library.log import LOG_FILE, keep_log
from game.ui.work import Worker


def test_the_newest_request_wins_on_its_channel():
    worker, ran = Worker(threaded=False), []
    for i in range(3):
        worker.ask("shot", lambda i=i: ran.append(i) or i)
    worker.ask("cloud", lambda: "cloud")
    assert [(a.channel, a.value, a.fresh) for a in worker.poll()] == [
        ("shot", 2, True),
        ("cloud", "cloud", True),
    ]
    assert ran == [2]
    assert worker.poll() == []


def test_then_hears_the_answer_while_polling():
    worker, heard = Worker(threaded=False), []
    worker.ask("shot", lambda: 7, heard.append)
    assert heard == []
    worker.poll()
    assert [a.value for a in heard] == [7]


def test_a_failure_is_one_sentence_and_the_next_request_still_runs():
    worker = Worker(threaded=False)

    def fails():
        raise ValueError("no ground under the ball")

    worker.ask("shot", fails)
    worker.ask("cloud", lambda: 1)
    first, second = worker.poll()
    assert first.problem == "The shot could not be worked out: no ground under the ball."
    assert isinstance(first.error, ValueError)
    assert first.value is None
    assert second.value == 1


def test_a_job_in_parts_answers_for_each_and_lets_others_between():
    worker = Worker(threaded=False)
    order = []

    def parts():
        for i in range(3):
            order.append(i)
            if i == 0:
                worker.ask("shot", lambda: order.append("shot"))
            yield i

    worker.ask("cloud", parts)
    answers = [a for a in worker.poll() if a.channel == "cloud"]
    assert [(a.value, a.last) for a in answers] == [(0, False), (1, False), (2, False), (None, True)]
    assert order == [0, "shot", 1, 2]


def test_a_newer_request_drops_the_rest_of_a_job_in_parts():
    worker, done = Worker(threaded=False), []

    def parts():
        for i in range(100):
            done.append(i)
            yield i

    worker.ask("cloud", parts)
    for _ in range(4):  # started, then three parts
        worker.step()
    worker.ask("cloud", lambda: "new")
    fresh = [a.value for a in worker.poll() if a.fresh and a.last]
    assert fresh == ["new"]
    assert len(done) == 3
    assert not worker.busy


def test_forgotten_requests_do_not_run():
    worker = Worker(threaded=False)
    worker.ask("shot", lambda: pytest.fail("ran"))
    worker.forget("shot")
    assert worker.poll() == []


def test_the_thread_answers_a_job_already_running_as_not_fresh():
    worker = Worker()
    started, go, done = threading.Event(), threading.Event(), threading.Event()

    def slow():
        started.set()
        assert go.wait(120)
        return "old"

    def new():
        done.set()
        return "new"

    worker.ask("shot", slow)
    assert started.wait(120)
    worker.ask("shot", lambda: pytest.fail("was replaced"))
    worker.ask("shot", new)
    go.set()
    assert done.wait(120)
    worker.close()
    assert [(a.value, a.fresh) for a in worker.poll()] == [("old", False), ("new", True)]


def test_a_bug_in_a_job_leaves_its_traceback_in_the_log(tmp_path):
    keep_log(tmp_path / "home")
    worker = Worker(threaded=False)
    worker.ask("shot", lambda: {}["no such key"])
    (answer,) = worker.poll()
    assert answer.problem == "The shot could not be worked out: 'no such key'."
    text = (tmp_path / "home" / LOG_FILE).read_text()
    assert "The shot could not be worked out." in text
    assert "Traceback" in text
    assert "KeyError: 'no such key'" in text


def test_a_disk_that_refuses_costs_only_the_log(tmp_path):
    (tmp_path / "home").write_text("a file, no folder")
    keep_log(tmp_path / "home")
    worker = Worker(threaded=False)
    worker.ask("shot", lambda: 1 / 0)
    assert worker.poll()[0].problem
