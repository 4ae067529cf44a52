"""Showing the handbook to this machine alone: who is answered, what every answer says, and what ends quietly."""

import os
import socket
import threading
from collections.abc import Iterator
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path

import click
import pytest

from diagnose.cli.handbook import server
from diagnose.handbook import serving
from diagnose.handbook.serving import HERE, Server, digests


@pytest.fixture
def site(tmp_path: Path) -> Path:
    folder = tmp_path / "site"
    (folder / "fixes" / "empty").mkdir(parents=True)
    (folder / "index.html").write_text("<p>start</p>")
    (folder / "fixes" / "index.html").write_text("<p>fixes</p>")
    (folder / "fixes" / "a b.js").write_text("1")
    (folder / ".presslore-made").write_text("mark")
    (tmp_path / "secret.txt").write_text("secret")
    (folder / "out.txt").symlink_to(tmp_path / "secret.txt")
    (folder / "up").symlink_to(tmp_path)
    (folder / "same.html").symlink_to(folder / "index.html")
    os.mkfifo(folder / "pipe.html")
    return folder


@pytest.fixture
def shown(site: Path, capsys: pytest.CaptureFixture[str]) -> Iterator[Server]:
    """A site that is served; whatever was asked, nothing is said of it and it still answers."""
    with server(site, 0) as going:
        thread = threading.Thread(target=going.serve_forever, args=(0.02,), daemon=True)
        thread.start()
        yield going
        assert ask(going, "/").read() == b"<p>start</p>"
        going.shutdown()
        thread.join()
    assert capsys.readouterr() == ("", "")


def ask(going: Server, path: str, method: str = "GET", host: str = "") -> HTTPResponse:
    connection = HTTPConnection(HERE, going.server_port, timeout=120)
    connection.putrequest(method, path, skip_host=True)
    connection.putheader("Host", host or f"{HERE}:{going.server_port}")
    connection.endheaders()
    return connection.getresponse()


def say(going: Server, sent: bytes) -> bytes:
    """All that comes back for these bytes."""
    with socket.create_connection((HERE, going.server_port), timeout=120) as connection:
        connection.sendall(sent)
        connection.shutdown(socket.SHUT_WR)
        return b"".join(iter(lambda: connection.recv(65536), b""))


@pytest.mark.parametrize(
    ("path", "content", "kind"),
    [
        ("/", b"<p>start</p>", "text/html; charset=utf-8"),
        ("/index.html?a=1", b"<p>start</p>", "text/html; charset=utf-8"),
        ("/fixes/", b"<p>fixes</p>", "text/html; charset=utf-8"),
        ("/fixes/a%20b.js", b"1", "text/javascript; charset=utf-8"),
        ("/same.html", b"<p>start</p>", "text/html; charset=utf-8"),
    ],
)
def test_files_are_shown(path: str, content: bytes, kind: str, shown: Server) -> None:
    answer = ask(shown, path)
    assert (answer.status, answer.read(), answer.headers["Content-Type"]) == (200, content, kind)
    answer = ask(shown, path, "HEAD")
    assert (answer.status, answer.read(), answer.headers["Content-Length"]) == (200, b"", str(len(content)))


def test_a_folder_leads_to_its_page_and_is_never_listed(shown: Server) -> None:
    answer = ask(shown, "/fixes")
    assert (answer.status, answer.headers["Location"]) == (301, "/fixes/")
    assert ask(shown, "/fixes/empty/").status == ask(shown, "/fixes/empty").status == 404


ELSEWHERE = """
    /gone.html /out.txt /up/secret.txt /../secret.txt /%2e%2e/secret.txt /fixes/..%2f..%2fsecret.txt /..%5csecret.txt
    /c:/secret.txt /%00 /index.html%00 /% /%zz /%ff%fe /%ed%a0%80 /pipe.html /.presslore-made /index.html/ /index.html/x
    /%0d%0aX:1"""


@pytest.mark.parametrize("path", [*ELSEWHERE.split(), "/" + "a" * 5000, "/" + "a/" * 5000])
def test_nothing_else_is(path: str, shown: Server) -> None:
    answer = ask(shown, path)
    assert answer.status == 404
    assert b"secret" not in answer.read()


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:{port}", "127.0.0.1", "127.0.0.1:1", "127.0.0.1.evil.example:{port}", " "]
)
def test_a_strangers_name_that_leads_here_reads_nothing(host: str, shown: Server) -> None:
    answer = ask(shown, "/", host=host.format(port=shown.server_port))
    assert (answer.status, b"start" in answer.read()) == (421, False)


def test_this_machines_own_names_do(shown: Server) -> None:
    for name in ("127.0.0.1", "localhost", "LocalHost"):
        assert ask(shown, "/", host=f"{name}:{shown.server_port}").status == 200


def test_a_request_with_no_name_or_two_reads_nothing(shown: Server) -> None:
    name = b"Host: 127.0.0.1:%d\r\n" % shown.server_port
    assert b" 421 " in say(shown, b"GET / HTTP/1.0\r\n\r\n")
    assert b" 421 " in say(shown, b"GET / HTTP/1.1\r\n" + name + b"Host: evil.example\r\n\r\n")
    assert b" 404 " in say(shown, b"GET http://evil.example/ HTTP/1.1\r\n" + name + b"\r\n")


@pytest.mark.parametrize(
    "method", ["POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE", "CONNECT", "BREW", "__init__"]
)
def test_nothing_but_reading(method: str, shown: Server) -> None:
    assert ask(shown, "/", method).status == 501


@pytest.mark.parametrize("path", ["/", "/gone.html", "/fixes"])
def test_every_answer_says_how_it_may_be_used(path: str, shown: Server) -> None:
    told = ask(shown, path).headers
    assert told["X-Content-Type-Options"] == "nosniff"
    assert told["Referrer-Policy"] == "no-referrer"
    assert "default-src 'none'" in told["Content-Security-Policy"]
    assert "script-src 'self';" in told["Content-Security-Policy"]
    assert "frame-ancestors 'none'" in told["Content-Security-Policy"]
    assert "Python" not in told["Server"]


@pytest.mark.parametrize(
    ("sent", "code"),
    [
        (b"GET /" + b"a" * 70000 + b" HTTP/1.1\r\n\r\n", b"414"),
        (b"GET / HTTP/1.1\r\nX: " + b"a" * 70000 + b"\r\n\r\n", b"431"),
        (b"GET / HTTP/1.1\r\n" + b"X: 1\r\n" * 500 + b"\r\n", b"431"),
        (b"nonsense\r\n\r\n", b"400"),
        (b"GET / HTTP/9.9.9\r\n\r\n", b"400"),
        (b"\x16\x03\x01\x02\x00\x01\x00\r\n\r\n", b"400"),
        (b"\r\n", b""),
        (b"GET", b""),
        (b"", b""),
    ],
)
def test_what_makes_no_sense_is_answered_in_a_line(sent: bytes, code: bytes, shown: Server) -> None:
    said = say(shown, sent)
    assert code in said[:400]
    assert b"Traceback" not in said


def test_a_closed_tab_is_no_news(shown: Server, site: Path) -> None:
    (site / "large.js").write_bytes(b"x" * 20_000_000)
    for _ in range(3):
        connection = socket.create_connection((HERE, shown.server_port))
        connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, b"\x01\0\0\0\0\0\0\0")  # an abrupt end
        connection.sendall(b"GET /large.js HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n\r\n" % shown.server_port)
        connection.recv(100)
        connection.close()


def test_who_says_nothing_is_let_go(shown: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving._Answer, "timeout", 0.2)
    with socket.create_connection((HERE, shown.server_port), timeout=120) as idle:
        assert idle.recv(100) == b""


def test_no_words_of_a_page_come_to_run() -> None:
    """Only what stands in all pages is trusted, whichever folder they stand in."""
    theme = '<script>scope=new URL("{}",location)</script><script>theme()</script>'
    pages = [theme.format("."), theme.format("..") + "<script>struck()</script>", theme.format("/")]
    assert len(digests(pages)) == 4
    assert digests([*pages, "<p>no script</p>"]) == digests([]) == ()


def test_only_this_machine_is_served(tmp_path: Path) -> None:
    with server(tmp_path, 0) as serving:
        assert serving.server_address[0] == HERE == "127.0.0.1"


def test_a_taken_port_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:

    with server(tmp_path, 0) as serving, pytest.raises(click.UsageError, match="--port"):
        server(tmp_path, serving.server_port)


def test_a_port_that_nobody_may_take_is_named(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Server, "server_bind", refuse)
    with pytest.raises(click.UsageError, match="port 80 cannot be had: Permission denied"):
        server(tmp_path, 80)
