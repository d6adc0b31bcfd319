/* SPDX-License-Identifier: GPL-3.0-or-later */
/* faults.c: faults of files, as text or JSON. */
#include "cli/faults.h"

#include <errno.h>
#include <glib.h>
#include <glib/gi18n.h>

#include "cli/options.h"
#include "cli/remote.h"
#include "files/in.h"
#include "forms/json.h"
#include "forms/plan-yaml.h"
#include "text/file-text.h"

static void
add_number (GString *json, const char *key, int32_t number)
{
  carpace_json_key (json, key);
  if (number > 0)
    carpace_json_int (json, number);
  else
    carpace_json_null (json);
}

static void
print_json (const CarpaceFaultTeller *teller, const CarpaceFileFault *fault)
{
  GString *json = g_string_new (NULL);

  carpace_json_open (json, '{');
  carpace_json_key (json, "kind");
  carpace_json_string (json, fault->warning ? "warning" : "fault");
  add_number (json, "line", fault->line);
  add_number (json, "column", fault->column);
  carpace_json_key (json, "message");
  carpace_json_string (json, carpace_remote_says (teller->cli, CARPACE_EXIT_REFUSED, fault->message));
  carpace_json_close (json, '}');
  fprintf (teller->cli->out, "%s\n", json->str);
  g_string_free (json, TRUE);
}

static void
print_text (const CarpaceFaultTeller *teller, const CarpaceFileFault *fault)
{
  FILE *err = teller->cli->err;
  g_autofree char *name = carpace_text_path (teller->path);

  fprintf (err, "%s:", name);
  if (fault->line > 0)
    fprintf (err, "%d:", (int) fault->line);
  if (fault->column > 0)
    fprintf (err, "%d:", (int) fault->column);
  fprintf (err, fault->warning ? _(" warning: %s\n") : " %s\n",
           carpace_remote_says (teller->cli, CARPACE_EXIT_REFUSED, fault->message));
}

void
carpace_cli_file_fault (void *user, const CarpaceFileFault *fault)
{
  CarpaceFaultTeller *teller = user;

  if (fault->warning)
    teller->warnings++;
  else
    teller->faults++;
  if (fault->warning && teller->skip_warnings)
    return;
  if (teller->json)
    print_json (teller, fault);
  else
    print_text (teller, fault);
}

GString *
carpace_cli_sound_plan (CarpaceFaultTeller *teller, CarpacePlan *ret_plan)
{
  CarpaceFileTrouble trouble;
  g_autoptr (GString) bytes = carpace_in_read (teller->path, CARPACE_PLAN_FILE_BYTES, CARPACE_IN_FILE, &trouble);
  g_autofree char *sentence = bytes != NULL ? NULL : carpace_text_not_read (trouble, teller->path, errno);
  CarpacePlanReader reader = carpace_plan_yaml ();

  if (bytes == NULL)
    carpace_cli_refuse (teller->cli, CARPACE_EXIT_REFUSED, "%s", sentence);
  else if (reader.read (reader.self, bytes->str, bytes->len, NULL, ret_plan, NULL, carpace_cli_file_fault, teller))
    return g_steal_pointer (&bytes);
  return NULL;
}
