/* SPDX-License-Identifier: GPL-3.0-or-later */
/** keyring-libsecret.h: the keyring behind org.freedesktop.secrets; a module, opened by who had a pass phrase kept. */
#ifndef CARPACE_KEYRING_LIBSECRET_H
#define CARPACE_KEYRING_LIBSECRET_H

#include "carpace/keyring.h"

CarpaceKeyring carpace_keyring_libsecret (void);

#endif
