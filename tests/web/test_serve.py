"""`printkit serve` itself: where it listens, what it says, how it ends."""

import os
import signal
import socket
import subprocess
import sys
import urllib.request

import pytest


def serve(*words):
    return subprocess.Popen(
        [sys.executable, "-m", "printkit", "serve", "--no-browser", *map(str, words)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def free_port():
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return free.getsockname()[1]


@pytest.mark.skipif(os.name == "nt", reason="Windows sends Ctrl-C otherwise")
def test_it_serves_and_stops(tmp_path):
    """It says where the page is, answers there, listens on this machine only, and ends with Ctrl-C."""
    port = free_port()
    running = serve(tmp_path / "packs", "--port", port)
    try:
        said = running.stderr.readline()
        assert said == f"The page is at http://127.0.0.1:{port}/ (stop with Ctrl-C)\n"
        with urllib.request.urlopen(f"http://127.0.0.1:{port}/", timeout=30) as answer:
            assert b"Begin a new pack" in answer.read()
    finally:
        running.send_signal(signal.SIGINT)
        _, said = running.communicate(timeout=30)
    assert running.returncode == 0
    assert said == "Stopped.\n"
    assert not (tmp_path / "packs").exists()


@pytest.mark.skipif(os.name == "nt", reason="Windows sends Ctrl-C otherwise")
def test_another_address_is_warned_of(tmp_path):
    """Any other address is warned of in plain words."""
    running = serve(tmp_path, "--port", free_port(), "--address", "0.0.0.0")
    said = running.stderr.readline()
    running.send_signal(signal.SIGINT)
    running.communicate(timeout=30)

    assert said.startswith("Warning: at 0.0.0.0 anyone in the same network can see and change these packs.")


def test_a_port_that_is_taken(tmp_path):
    """A port that was asked for and is taken is a failure of the machine, told in one line."""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        running = serve(tmp_path, "--port", taken.getsockname()[1])
        _, said = running.communicate(timeout=60)

    assert running.returncode == 1
    assert said.count("\n") == 1
    assert "Traceback" not in said


def test_a_file_is_no_folder(tmp_path):
    """A file instead of a folder is a wrong request."""
    file = tmp_path / "pack.toml"
    file.write_text("", encoding="utf-8")
    running = serve(file)
    _, said = running.communicate(timeout=60)

    assert running.returncode == 2
    assert said == f"FOLDER: '{file}' is a file; allowed: a folder of pack files\n"
