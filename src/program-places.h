/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * program-places.h: where the program finds what belongs to it, installed or in its build folder.
 *
 * What few use, and what is large, is no part of the tray's memory: it is a module, opened by those who need it.
 */
#ifndef CARPACE_PROGRAM_PLACES_H
#define CARPACE_PROGRAM_PLACES_H

#include <glib.h>

#include "adapters/sound.h"
#include "ui/card-layers.h"

/** @return @folder where the program runs from its build folder; NULL where it is installed, was built for others,
 * or was told of other plans (CARPACE_PLANS) */
const char *carpace_program_uninstalled (const char *folder);

/** @param room the folder of the source whose module it is, such as "forms"
 * @param name its file's name
 * @param symbol what it has to have
 * @param ret_function a function: NULL without a module
 * @return whether module and symbol are there. It stays open to the end. */
bool carpace_program_module (const char *room, const char *name, const char *symbol, void (**ret_function) (void));

/** A CarpaceFindLayers. @return NULL where the module is not there */
const CarpaceLayers *carpace_program_layers (void);

/** @return what plays sounds; without a sound library it cannot */
CarpaceSound carpace_program_sound (void);

#endif
