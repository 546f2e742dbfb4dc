"""The database: tables, migrations, seeding, releases and typed access to what is stored."""

from service.storage.engine import Database, ReadSession, WriteSession
from service.storage.errors import StorageError
from service.storage.offline import export_file, import_release
from service.storage.reading import read_package
from service.storage.releases import current_release, list_releases, load, publish
from service.storage.repositories.releases import ReleaseInfo
from service.storage.seeding import Seeding, seed
from service.storage.shelf import Shelf
from service.storage.writing import export_package

__all__ = [
    "Database",
    "ReadSession",
    "ReleaseInfo",
    "Seeding",
    "Shelf",
    "StorageError",
    "WriteSession",
    "current_release",
    "export_file",
    "export_package",
    "import_release",
    "list_releases",
    "load",
    "publish",
    "read_package",
    "seed",
]
