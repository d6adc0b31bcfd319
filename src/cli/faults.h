/* SPDX-License-Identifier: GPL-3.0-or-later */
/** faults.h: faults of files, as text or JSON. */
#ifndef CARPACE_CLI_FAULTS_H
#define CARPACE_CLI_FAULTS_H

#include <glib.h>

#include "cli/cli.h"

/** How faults of one file are told, and what has been. Hand it as `user` with
 * carpace_cli_file_fault() to whoever reads the file. */
typedef struct
{
  CarpaceCli *cli;
  const char *path;
  bool json;           /**< to cli->out; else `PATH:LINE:COLUMN: message` to cli->err */
  bool skip_warnings;
  int faults, warnings; /**< how many came */
} CarpaceFaultTeller;

/** A CarpaceFileFaultVisitor. */
void carpace_cli_file_fault (void *teller, const CarpaceFileFault *fault);

/** The bytes of the plan in teller->path, and that plan: what was judged is what was read. g_string_free() them
 * @return NULL, told, where it cannot be read or has faults */
GString *carpace_cli_sound_plan (CarpaceFaultTeller *teller, CarpacePlan *ret_plan);

#endif
