/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * folder-files.h: a folder of small files, as a port.
 *
 * The own one holds keys: made when it is first written to, 0700, its files 0600; what others could read or belongs to
 * somebody else is refused. A shared one is never made (a stick that is not there must not become a folder that is), and
 * what is in it is sealed: its files can be read by whom the folder can.
 */
#ifndef CARPACE_FOLDER_FILES_H
#define CARPACE_FOLDER_FILES_H

#include "carpace/folder.h"

/** @param path NULL: `carpace/team` in the user's data folder */
CarpaceFolder carpace_folder_own (const char *path);
CarpaceFolder carpace_folder_shared (const char *path);

#endif
