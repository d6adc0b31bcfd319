# SPDX-License-Identifier: GPL-3.0-or-later
"""The Debian packages: built twice they are the same bytes, without a path of the builder's; Debian's checker finds nothing.

usage: deb.py SOURCE
"""
import os
import pathlib
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "architecture"))
import hardened  # noqa: E402

SOURCE = pathlib.Path(sys.argv[1]).resolve()
# Less is optimized than in the packages that are given out, in half the time. What differs from machine to machine; the second one also builds a step at a time.
MACHINES = [
    ("here", 0o022, {"TZ": "UTC"}),
    ("another/place", 0o077, {"TZ": "Asia/Kathmandu", "LANG": "de_DE.UTF-8", "USER": "another",
                                              "DEB_BUILD_OPTIONS": "nocheck noautodbgsym parallel=1"}),
]
# It takes machine code for words.
NOT_OURS = "spelling-error-in-binary"
# A module in a package of its own, and the library that only that one needs.
APART = {"carpace-calendar": "libical", "carpace-club": "libpq"}
WANTED = ("usr/bin/carpace", "usr/share/man/man1/carpace.1.gz", "usr/share/man/man5/carpace-plan.5.gz", "usr/share/man/man7/carpace-team.7.gz",
          "usr/share/dbus-1/services/org.carpace.Carpace.service", "usr/lib/systemd/user/org.carpace.Carpace.service",
          "usr/share/applications/org.carpace.Carpace.desktop", "usr/share/metainfo/org.carpace.Carpace.metainfo.xml",
          "usr/share/applications/org.carpace.Carpace.Plan.desktop", "usr/share/mime/packages/org.carpace.Carpace.xml",
          "usr/share/bash-completion/completions/carpace", "usr/share/zsh/site-functions/_carpace",
          "usr/share/fish/vendor_completions.d/carpace.fish", "usr/share/locale/de/LC_MESSAGES/carpace.mo",
          "usr/share/carpace/plans/first-week.plan.yaml", "usr/share/icons/hicolor/scalable/apps/org.carpace.Carpace.svg")


def run(words, **more):
    done = subprocess.run([str(word) for word in words], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, **more)
    if done.returncode != 0:
        sys.exit(f"{words}: {done.returncode}\n{done.stdout.decode(errors='replace')[-4000:]}")
    return done.stdout


def build(folder, umask, environment, *arguments):
    before = os.umask(umask)
    run(["sh", SOURCE / "src/package", folder, *arguments], env={**os.environ, "HOME": str(folder), "DEB_CFLAGS_APPEND": "-O1 -g0", **environment})
    os.umask(before)
    return {path.name: path for path in folder.glob("*.deb")}


def faults_of_contents(packages, folders, work):
    files = {}
    for name, path in packages.items():
        run(["dpkg-deb", "--extract", path, work / name])
        for file in (work / name).rglob("*"):
            if file.is_file():
                files[str(file.relative_to(work / name))] = name
                bytes_of = file.read_bytes()
                if bytes_of.startswith(b"\x7fELF"):
                    yield from (f"{file.name} of {name}: {fault}" for fault in hardened.faults_of(file))
                for folder in folders:
                    if os.fsencode(folder) in bytes_of:
                        yield f"{file.name} of {name} has the path {folder} in it"
    for wanted in WANTED:
        if wanted not in files:
            yield f"no package has {wanted}"
    for file, name in files.items():
        module = pathlib.Path(file).stem
        belongs = module if module in APART and file.endswith(".so") else "carpace"
        if name.split("_")[0] != belongs and "/doc/" not in file:
            yield f"{file} is in {name}"
    for name, path in packages.items():
        needs = run(["dpkg-deb", "--field", path, "Depends"]).decode()
        for apart, library in APART.items():
            if (library in needs) != (name.split("_")[0] == apart):
                yield f"{name} needs: {needs}"


def main():
    with tempfile.TemporaryDirectory(prefix="carpace-packages-") as name:
        work = pathlib.Path(name)
        built = [build(work / folder, umask, environment, *(["--build=full"] if n == 0 else []))
                 for n, (folder, umask, environment) in enumerate(MACHINES)]
        faults = [] if len(built[0]) == 1 + len(APART) else [f"there are {sorted(built[0])}"]
        for deb, path in built[0].items():
            if deb not in built[1] or path.read_bytes() != built[1][deb].read_bytes():
                faults.append(f"{deb} differs from machine to machine; diffoscope tells where")
        faults += faults_of_contents(built[0], [str(work), str(SOURCE)], work)
        changes, = (work / MACHINES[0][0]).glob("*.changes")
        found = subprocess.run(["lintian", "--display-info", "--pedantic", "--tag-display-limit", "0", "--suppress-tags", NOT_OURS,
                                str(changes)], capture_output=True, text=True)
        faults += found.stdout.splitlines() + ([] if found.returncode in (0, 2) else [found.stderr])
    print(f"packages: {len(built[0])}, {len(faults)} faults")
    for fault in faults:
        print(fault)
    sys.exit(1 if faults else 0)


main()
