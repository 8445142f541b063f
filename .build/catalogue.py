"""The build's own step: check the plant records, and write them into the one file that commands open."""

import sys
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class CatalogueHook(BuildHookInterface):  # type: ignore[type-arg]
    """Runs before every wheel and editable install is made; a fault in the records stops the build."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:  # noqa: ARG002
        sys.path.insert(0, self.root)
        from cuttings.plants.checking import of_files
        from cuttings.plants.standard import BUILT, built, data_files

        files = data_files()
        faults = of_files(files)
        if faults:
            raise ValueError("The plant records are not sound:\n" + "\n".join(map(str, faults)))
        BUILT.write_bytes(built(files))
