/* SPDX-License-Identifier: GPL-3.0-or-later */
/* faults.c: faults of files, as text or JSON. */
#include "cli/faults.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "cli/remote.h"
#include "forms/json.h"
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
