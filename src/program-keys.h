/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-keys.h: who lets the program have keys on this desktop. Part of main: it names adapters. */
#ifndef CARPACE_PROGRAM_KEYS_H
#define CARPACE_PROGRAM_KEYS_H

#include "carpace/desktop.h"

CarpaceShortcutsOffer carpace_program_shortcuts_offer (void);

#endif
