#!/usr/bin/env bash
# Builds the Debian package: bash icons/desktop/deb.sh [PROFILE]
#
# Needs cargo-deb and Python 3.11. What it holds stands in Cargo.toml under package.metadata.deb. The
# package lies under target/debian when it is done. PROFILE is release unless another is named.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

profile=${1:-release}
folder=$profile
[[ $profile == dev ]] && folder=debug

cargo build --locked --profile "$profile"
# Manual pages and completions come from the program itself.
rm -rf target/packaging
"target/$folder/gapledger" packaging target/packaging
python3 icons/desktop/components.py target/packaging
gzip -9n target/packaging/library-licences

# Files in the package are as old as the change they are made from, so that the same tree gives the
# same package.
SOURCE_DATE_EPOCH=${SOURCE_DATE_EPOCH:-$(git log -1 --format=%ct)}
export SOURCE_DATE_EPOCH
cargo deb --locked --no-build --profile "$profile"
