/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-sharing.h: the window for sharing, in the process of `carpace share window`. */
#ifndef CARPACE_PROGRAM_SHARING_H
#define CARPACE_PROGRAM_SHARING_H

#include "cli/cli.h"

/** A CarpaceShowSharing. */
bool carpace_program_sharing (const CarpaceSharingShown *shown);

#endif
