"""Whether a file lies on a network share, where SQLite's locks cannot be trusted. Best effort: on Linux only."""

from pathlib import Path

MOUNTS = Path("/proc/mounts")
NETWORK = {
    "9p", "afs", "afpfs", "beegfs", "ceph", "cifs", "davfs", "davfs2", "gfs2", "glusterfs", "lustre", "ncpfs", "nfs",
    "nfs4", "ocfs2", "smb2", "smb3", "smbfs",
}  # fmt: skip
HIDDEN = {"fuse.sshfs", "fuse.davfs2", "fuse.rclone", "fuse.glusterfs", "fuse.ceph", "fuse.s3fs", "fuse.gvfsd-fuse"}


def network_share(path: Path) -> str:
    """The kind of network share that a file lies on, "" where it lies on none or nothing can be told."""
    try:
        mounts = MOUNTS.read_text(encoding="utf-8", errors="replace")
    except OSError:
        return ""
    kind = kind_of(path.resolve(), mounts)
    return kind if kind in NETWORK | HIDDEN else ""


def kind_of(path: Path, mounts: str) -> str:
    """The kind of file system that holds a path, by a table of mounts as Linux shows it: the deepest mount counts,
    and of several at one place the last."""
    deepest, kind = -1, ""
    for line in mounts.splitlines():
        _, at, found, *_ = [*line.split(), "", "", ""]
        folder = Path(_spelt_out(at)) if at else None
        if folder and path.is_relative_to(folder) and len(folder.parts) >= deepest:
            deepest, kind = len(folder.parts), found
    return kind


def _spelt_out(text: str) -> str:
    """The table writes blanks and backslashes as octal numbers."""
    for code, letter in ((r"\040", " "), (r"\011", "\t"), (r"\012", "\n"), (r"\134", "\\")):
        text = text.replace(code, letter)
    return text
