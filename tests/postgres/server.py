# SPDX-License-Identifier: GPL-3.0-or-later
"""A PostgreSQL server in a folder, and who logs in to it."""
import os
import pathlib
import shutil
import signal
import socket
import subprocess
import tempfile
import time

PASSWORDS = {name: f"{name} walks by the river" for name in ("coach", "clinic", "keeper", "keeper2", "stranger", "plain")}


def free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


def state_of(pid):
    """A letter; blank where there is no such process any more."""
    try:
        return pathlib.Path(f"/proc/{pid}/stat").read_text(encoding="utf-8").rsplit(")", 1)[1].split()[0]
    except (OSError, IndexError):
        return " "


class Server:
    def __init__(self, binaries):
        self.bin = pathlib.Path(binaries)
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="carpace-postgres-"))
        self.folder.chmod(0o755)
        shutil.chown(self.folder, "postgres", "postgres")
        self.port = free_port()
        self.data = self.folder / "data"
        self.as_postgres(self.bin / "initdb", "-D", self.data, "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8")
        (self.data / "pg_hba.conf").write_text(
            "local all postgres trust\nlocal all all scram-sha-256\nhostssl all all 127.0.0.1/32 scram-sha-256\n")
        self.certificates()
        with open(self.data / "postgresql.conf", "a", encoding="utf-8") as conf:
            conf.write(f"port = {self.port}\nlisten_addresses = '127.0.0.1'\nunix_socket_directories = '{self.folder}'\n"
                       f"ssl = on\nssl_cert_file = '{self.folder}/club.crt'\nssl_key_file = '{self.folder}/club.key'\n"
                       "log_connections = on\nshared_buffers = 256MB\nmax_wal_size = 4GB\nautovacuum = on\n")
        self.pass_file = self.folder / "pgpass"
        self.pass_file.write_text("".join(f"*:*:*:{name}:{word}\n" for name, word in PASSWORDS.items()))
        self.pass_file.chmod(0o600)
        self.start()

    def certificates(self):
        """An authority of its own, and the server's certificate for club.example."""
        def openssl(*words):
            subprocess.run(["openssl", *map(str, words)], check=True, capture_output=True, cwd=self.folder)
        openssl("req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", 2, "-subj", "/CN=authority", "-keyout", "ca.key", "-out", "ca.crt")
        openssl("req", "-newkey", "rsa:2048", "-nodes", "-subj", "/CN=club.example", "-keyout", "club.key", "-out", "club.csr")
        openssl("x509", "-req", "-in", "club.csr", "-CA", "ca.crt", "-CAkey", "ca.key", "-CAcreateserial", "-days", 2, "-out", "club.crt")
        shutil.chown(self.folder / "club.key", "postgres", "postgres")
        (self.folder / "club.key").chmod(0o600)

    def as_postgres(self, *words):
        done = subprocess.run(["runuser", "-u", "postgres", "--", *map(str, words)], capture_output=True, text=True, cwd="/",
                              stdin=subprocess.DEVNULL)
        if done.returncode != 0:
            raise RuntimeError(f"{words}: {done.stdout}{done.stderr}")

    def start(self):
        # its output is not ours: a pipe would stay open with it
        subprocess.run(["runuser", "-u", "postgres", "--", str(self.bin / "pg_ctl"), "-D", str(self.data), "-l", str(self.folder / "log"),
                        "-w", "-t", "60", "start"], check=True, cwd="/", stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)

    def stop(self):
        self.as_postgres(self.bin / "pg_ctl", "-D", self.data, "-m", "immediate", "-w", "stop")

    def kill(self):
        """All of its processes, at once, as a power cut would."""
        first = int((self.data / "postmaster.pid").read_text().split()[0])
        listed = subprocess.run(["ps", "--ppid", str(first), "-o", "pid="], capture_output=True, text=True, check=False).stdout.split()
        for pid in [first, *map(int, listed)]:
            try:
                os.kill(pid, signal.SIGKILL)
            except ProcessLookupError:
                pass
        while any(state_of(pid) not in "Z " for pid in (first, *map(int, listed))):
            time.sleep(0.01)
        # one that nobody took notice of is still counted as a process, and would be taken for the server
        (self.data / "postmaster.pid").unlink(missing_ok=True)
        (self.folder / f".s.PGSQL.{self.port}.lock").unlink(missing_ok=True)

    def remove(self):
        try:
            self.stop()
        except RuntimeError:
            pass
        shutil.rmtree(self.folder, ignore_errors=True)

    def address(self, database, login):
        return f"postgresql://{login}@/{database}?host={self.folder}&port={self.port}"

    def psql_words(self, login, database):
        return [str(self.bin / "psql"), "-X", "-A", "-t", "-q", "-h", str(self.folder), "-p", str(self.port), "-U", login, "-d", database]

    def environment(self):
        return dict(os.environ, PGPASSFILE=str(self.pass_file), LC_ALL="C.UTF-8")

    def psql(self, login, database, sql, *words):
        """What came of it, errors beside the rest."""
        done = subprocess.run([*self.psql_words(login, database), *words], input=sql, env=self.environment(), text=True,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
        return done.stdout

    def one(self, database, sql):
        """As the superuser; must come about."""
        done = subprocess.run([*self.psql_words("postgres", database), "-v", "ON_ERROR_STOP=1"], input=sql, env=self.environment(), text=True,
                              capture_output=True, check=False)
        if done.returncode != 0:
            raise RuntimeError(f"{sql[:200]}: {done.stderr}")
        return done.stdout.strip()
