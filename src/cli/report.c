/* SPDX-License-Identifier: GPL-3.0-or-later */
/* report.c: `carpace report`: one page, on paper, as a picture or as text. */
#include <cairo-pdf.h>
#include <glib/gi18n.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "app/held.h"
#include "cli/clock.h"
#include "cli/diary-out.h"
#include "cli/files.h"
#include "cli/options.h"
#include "draw/report.h"
#include "text/text.h"

#define DAYS 28
#define MOST_DAYS 36600
#define PNG_SCALE (150.0 / 72)

typedef enum
{
  FORMAT_TEXT,
  FORMAT_PDF,
  FORMAT_PNG
} Format;

typedef struct
{
  CarpaceReportAsk ask;
  Format format;
  CarpaceSheet sheet;
  const char *file, *from;
  bool no_period; /* none was said */
  bool force;
} Asked;

/* `--with ratings,sites,cautions`: what the player ticks for a coach. */
static bool
read_ticks (CarpaceCli *cli, const char *value, CarpaceReportAsk *ask)
{
  g_auto (GStrv) ticks = g_strsplit (value == NULL ? "" : value, ",", 8);

  for (int i = 0; ticks[i] != NULL; i++)
    {
      g_autofree char *shown = carpace_text_shown_word (ticks[i]);

      if (g_str_equal (ticks[i], "ratings"))
        ask->ratings = true;
      else if (g_str_equal (ticks[i], "sites"))
        ask->sites = true;
      else if (g_str_equal (ticks[i], "cautions"))
        ask->cautions = true;
      else if (*ticks[i] != '\0')
        {
          carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("--with knows no “%s”; there are: ratings, sites, cautions."), shown);
          return false;
        }
    }
  return true;
}

/* The format by its word, else by the file's ending, else text. */
static bool
read_format (CarpaceCli *cli, const char *value, const char *file, Format *ret_format)
{
  static const char *const words[] = { "text", "pdf", "png", NULL };
  int choice = carpace_option_choice (cli, "format", value, words);

  if (choice < 0)
    return false;
  *ret_format = (Format) choice;
  if (value == NULL && file != NULL && g_str_has_suffix (file, ".pdf"))
    *ret_format = FORMAT_PDF;
  if (value == NULL && file != NULL && g_str_has_suffix (file, ".png"))
    *ret_format = FORMAT_PNG;
  if (*ret_format == FORMAT_TEXT || file != NULL)
    return true;
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("Name the file to write, as in “carpace report --format %s report.%s”; “-” is the standard output."),
                      words[*ret_format], words[*ret_format]);
  return false;
}

static bool
read_period (CarpaceCli *cli, const char *since, const char *until, CarpaceReportAsk *ask)
{
  ask->until = carpace_cli_today (cli, ask->plan);
  if (!carpace_cli_date (cli, "until", until, &ask->until))
    return false;
  ask->since = ask->until - DAYS + 1;
  if (!carpace_cli_date (cli, "since", since, &ask->since))
    return false;
  if (ask->since <= ask->until && ask->until - ask->since < MOST_DAYS)
    return true;
  if (ask->since > ask->until && until == NULL)
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, "%s", _("--since lies after today; name an earlier date, or a later --until, too."));
  else if (ask->since > ask->until)
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("The period ends before it begins: --since is after --until; change one of them."));
  else
    carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("The period is longer than a hundred years; name a later --since."));
  return false;
}

/* A code is printed on a page that is handed on. */
static bool
read_code (CarpaceCli *cli, const char *code)
{
  if (code == NULL || (g_utf8_validate (code, -1, NULL) && *code != '\0' && g_utf8_strlen (code, -1) <= 20))
    return true;
  carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("A player's code is 1 to 20 characters long; shorten it."));
  return false;
}

static bool
read_asked (CarpaceCli *cli, int argc, char **argv, Asked *asked)
{
  static const char *const readers[] = { "clinician", "coach", NULL };
  static const char *const papers[] = { "a4", "letter", NULL };
  const char *since = NULL, *until = NULL, *reader = NULL, *format = NULL, *paper = NULL, *with = NULL;
  const CarpaceOption options[] = {
    { "since", &since, NULL }, { "until", &until, NULL },   { "for", &reader, NULL },
    { "format", &format, NULL }, { "paper", &paper, NULL }, { "with", &with, NULL }, { "from", &asked->from, NULL }, { "code", &asked->ask.code, NULL },
    { "force", NULL, &asked->force },
  };
  const char *file[1] = { NULL };
  int choice;

  if (carpace_options_read (cli, argc, argv, options, G_N_ELEMENTS (options), file, 1) < 0)
    return false;
  asked->file = file[0];
  if ((choice = carpace_option_choice (cli, "for", reader, readers)) < 0)
    return false;
  asked->ask.for_coach = choice == 1;
  if ((choice = carpace_option_choice (cli, "paper", paper, papers)) < 0)
    return false;
  asked->sheet = choice == 1 ? carpace_sheet_letter : carpace_sheet_a4;
  if (with != NULL && !asked->ask.for_coach)
    {
      carpace_cli_refuse (cli, CARPACE_EXIT_WORDS, _("--with is for a coach's report; a clinician's has all of it. Leave it out, or add --for coach."));
      return false;
    }
  asked->no_period = since == NULL && until == NULL;
  return read_ticks (cli, with, &asked->ask) && read_format (cli, format, asked->file, &asked->format)
         && read_period (cli, since, until, &asked->ask) && read_code (cli, asked->ask.code);
}

static cairo_status_t
append (void *bytes, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (bytes, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static bool
finish (cairo_t *cr, cairo_surface_t *surface)
{
  bool fine = cairo_status (cr) == CAIRO_STATUS_SUCCESS;

  cairo_destroy (cr);
  cairo_surface_finish (surface);
  fine = fine && cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS;
  cairo_surface_destroy (surface);
  return fine;
}

static bool
paint_pdf (CarpaceReport *report, const Asked *asked, GByteArray *bytes)
{
  cairo_surface_t *surface
    = cairo_pdf_surface_create_for_stream (append, bytes, asked->sheet.width, asked->sheet.height);
  cairo_t *cr = cairo_create (surface);

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, carpace_text_report_title (asked->ask.for_coach));
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Carpace");
  carpace_report_paint (report, cr, asked->sheet);
  cairo_show_page (cr);
  return finish (cr, surface);
}

static bool
paint_png (CarpaceReport *report, const Asked *asked, GByteArray *bytes)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (asked->sheet.width * PNG_SCALE),
                                                         (int) ceil (asked->sheet.height * PNG_SCALE));
  cairo_t *cr = cairo_create (surface);
  bool written;

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, PNG_SCALE, PNG_SCALE);
  carpace_report_paint (report, cr, asked->sheet);
  written = cairo_surface_write_to_png_stream (surface, append, bytes) == CAIRO_STATUS_SUCCESS;
  return finish (cr, surface) && written;
}

static int
write_report (CarpaceCli *cli, CarpaceReport *report, const Asked *asked)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  bool painted = true;

  if (asked->format == FORMAT_TEXT)
    {
      g_autofree char *text = carpace_report_text (report);

      g_byte_array_append (bytes, (const guint8 *) text, (guint) strlen (text));
    }
  else
    painted = asked->format == FORMAT_PDF ? paint_pdf (report, asked, bytes) : paint_png (report, asked, bytes);
  if (!painted)
    return carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The page could not be painted; try --format text."));
  return carpace_cli_write_file (cli, asked->file, asked->force, (const char *) bytes->data, bytes->len) ? CARPACE_EXIT_DONE
                                                                                            : CARPACE_EXIT_REFUSED;
}

static bool
later (void *user, const CarpaceDaySum *sum)
{
  *(CarpaceDay *) user = sum->day;
  return true;
}

/* A file's report ends with what the file has. */
static void
end_with (const CarpaceDiary *diary, CarpaceReportAsk *ask)
{
  CarpaceDay last = CARPACE_NO_DAY;

  if (!diary->days (diary->self, INT32_MIN, INT32_MAX, later, &last) || last == CARPACE_NO_DAY)
    return;
  ask->until = last;
  ask->since = last - DAYS + 1;
}

int
carpace_cli_report (CarpaceCli *cli, int argc, char **argv)
{
  CarpacePlan *plan = carpace_cli_plan_in_use (cli);
  Asked asked = { .ask = { .plan = plan } };
  CarpaceReport *report = NULL;
  CarpaceDiary diary;
  CarpacePlansKept kept = { .name = NULL };
  int status = CARPACE_EXIT_WORDS;

  asked.ask.held = &kept.held;
  if (read_asked (cli, argc, argv, &asked))
    {
      status = CARPACE_EXIT_REFUSED;
      if (carpace_cli_open_diary_or (cli, asked.from, &diary))
        {
          if (asked.from != NULL && asked.no_period)
            end_with (&diary, &asked.ask);
          if (carpace_plans_kept_until (&diary, &cli->plans, asked.ask.until, &kept))
            report = carpace_report_new (&diary, &asked.ask);
          if (report == NULL)
            carpace_cli_refuse (cli, CARPACE_EXIT_REFUSED, _("The diary could not be read; nothing was written."));
          else
            status = write_report (cli, report, &asked);
        }
    }
  carpace_report_free (report);
  carpace_plans_kept_clear (&kept);
  free (plan);
  return status;
}
