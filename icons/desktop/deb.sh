#!/usr/bin/env bash
# Builds the Debian package: bash icons/desktop/deb.sh [PROFILE]
#
# Needs cargo-deb. What it holds stands in Cargo.toml under package.metadata.deb. The package lies
# under target/debian when it is done. PROFILE is release unless another is named.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

profile=${1:-release}
folder=$profile
[[ $profile == dev ]] && folder=debug

cargo build --locked --profile "$profile"
# Manual pages and completions come from the program itself.
rm -rf target/packaging
"target/$folder/gapledger" packaging target/packaging
cargo deb --locked --no-build --profile "$profile"
