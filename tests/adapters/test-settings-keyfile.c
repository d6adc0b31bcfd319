/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-settings-keyfile.c: each setting good, at its borders and bad, and files
 * of every sort in the settings' place. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "settings-keyfile.h"

#define MOST_BYTES 65536

static char *folder, *path; /* of the settings; a test has its own for all its cases */
static GString *said;       /* what was told, a line each */

static void
hear (const char *message)
{
  g_string_append_printf (said, "%s\n", message);
}

static const char *
or_none (const char *text)
{
  return text != NULL ? text : "-";
}

/* The settings as they are read now, in one line. */
static char *
read_now (void)
{
  CarpaceSettings s;
  char *line;

  g_string_truncate (said, 0);
  carpace_settings_read (&s, hear);
  line = g_strdup_printf ("%s|%d|%d|%s|%s|%s|%d|%s", or_none (s.chord), s.sound, s.other_input, or_none (s.overlay_folder),
                          or_none (s.overlay_file), or_none (s.overlay_line), s.overlay_window, or_none (s.overlay_colour));
  carpace_settings_clear (&s);
  return line;
}

#define USUAL "-|0|1|-|carpace-overlay.txt|{words}|0|-"

static int
set_up (void **state)
{
  said = g_string_new (NULL);
  folder = g_build_filename (g_get_user_config_dir (), "carpace", NULL);
  path = g_build_filename (folder, "settings", NULL);
  return g_mkdir_with_parents (folder, 0755);
}

static int
tear_down (void **state)
{
  g_remove (path);
  g_rmdir (path);
  g_rmdir (folder);
  g_free (path);
  g_free (folder);
  g_string_free (said, TRUE);
  return 0;
}

static void
write_bytes (const char *bytes, gssize n)
{
  assert_true (g_file_set_contents (path, bytes, n, NULL));
}

static int
lines_said (void)
{
  int n = 0;

  for (const char *at = said->str; *at != '\0'; at++)
    n += *at == '\n';
  return n;
}

static void
assert_read (const char *row, const char *settings, int n_said, const char *words)
{
  g_autofree char *is = read_now ();

  if (strcmp (is, settings) != 0 || lines_said () != n_said || strstr (said->str, words) == NULL)
    fail_msg ("%s: %s\n%d lines: %s", row, is, lines_said (), said->str);
  if (n_said > 0 && strstr (said->str, "/carpace/settings: ") == NULL)
    fail_msg ("%s: not said where: %s", row, said->str);
}

/* A row a value; each bad one has one sentence, and the next key holds. */
static void
each_key (void **state)
{
  static const struct { const char *row, *lines, *settings; int n_said; const char *words; } rows[] = {
    { "nothing", "", USUAL, 0, "" },
    { "all of them",
      "chord=Super+F1\nsound=true\ncount-other-input=false\noverlay-folder=/tmp/x\noverlay-file=a.txt\noverlay-line={to-go}\n"
      "overlay-window=true\noverlay-colour=#00b140\n",
      "Super+F1|1|0|/tmp/x|a.txt|{to-go}|1|#00b140", 0, "" },
    { "a chord", "chord=Ctrl+Alt+7\n", "Ctrl+Alt+7|0|1|-|carpace-overlay.txt|{words}|0|-", 0, "" },
    { "an empty chord is its reader's matter", "chord=\n", "|0|1|-|carpace-overlay.txt|{words}|0|-", 0, "" },
    { "a chord that is no text", "chord=\xff\nsound=true\n", "-|1|1|-|carpace-overlay.txt|{words}|0|-", 1, "chord is no text" },
    { "a chord with an escape that is none", "chord=a\\q\nsound=true\n", "-|1|1|-|carpace-overlay.txt|{words}|0|-", 1,
      "chord is no text" },
    { "sound on", "sound=true\n", "-|1|1|-|carpace-overlay.txt|{words}|0|-", 0, "" },
    { "sound off", "sound=false\n", USUAL, 0, "" },
    { "sound as a number", "sound=1\n", "-|1|1|-|carpace-overlay.txt|{words}|0|-", 0, "" },
    { "sound as two", "sound=2\noverlay-window=true\n", "-|0|1|-|carpace-overlay.txt|{words}|1|-", 1,
      "sound is neither true nor false" },
    { "sound said otherwise", "sound=yes\n", USUAL, 1, "sound is neither true nor false" },
    { "sound left empty", "sound=\n", USUAL, 1, "sound is neither true nor false" },
    { "no counting", "count-other-input=false\n", "-|0|0|-|carpace-overlay.txt|{words}|0|-", 0, "" },
    { "counting, wrong: as it always was", "count-other-input=off\n", USUAL, 1, "count-other-input is neither" },
    { "the shortest folder", "overlay-folder=/\n", "-|0|1|/|carpace-overlay.txt|{words}|0|-", 0, "" },
    { "a folder from nowhere", "overlay-folder=stream\nsound=true\n", "-|1|1|-|carpace-overlay.txt|{words}|0|-", 1,
      "overlay-folder is no absolute path" },
    { "an empty folder", "overlay-folder=\n", USUAL, 1, "overlay-folder is no absolute path" },
    { "a folder of bytes", "overlay-folder=/\xc3\n", USUAL, 1, "overlay-folder is no text" },
    { "a file's name", "overlay-file=line.txt\n", "-|0|1|-|line.txt|{words}|0|-", 0, "" },
    { "a name that is no text", "overlay-file=\xc3\x28\n", USUAL, 1, "overlay-file is no text" },
    { "a pattern", "overlay-line=Back at {until}\n", "-|0|1|-|carpace-overlay.txt|Back at {until}|0|-", 0, "" },
    { "a pattern that is no text", "overlay-line=\x80\n", USUAL, 1, "overlay-line is no text" },
    { "a window", "overlay-window=true\n", "-|0|1|-|carpace-overlay.txt|{words}|1|-", 0, "" },
    { "a window, wrong", "overlay-window=maybe\n", USUAL, 1, "overlay-window is neither" },
    { "a colour", "overlay-colour=green\n", "-|0|1|-|carpace-overlay.txt|{words}|0|green", 0, "" },
    { "a colour that is no text", "overlay-colour=\xfe\n", USUAL, 1, "overlay-colour is no text" },
    { "the later of two", "sound=true\nsound=false\n", USUAL, 0, "" },
    { "a key that is none", "volume=3\nsound=true\n", "-|1|1|-|carpace-overlay.txt|{words}|0|-", 1, "there is no setting" },
    { "another case", "Sound=true\n", USUAL, 1, "there is no setting" },
    { "three wrong ones, three sentences", "sound=2\nvolume=3\noverlay-window=\nchord=Ctrl+1\n",
      "Ctrl+1|0|1|-|carpace-overlay.txt|{words}|0|-", 3, "volume" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *bytes = g_strconcat ("[carpace]\n", rows[i].lines, NULL);

      write_bytes (bytes, -1);
      assert_read (rows[i].row, rows[i].settings, rows[i].n_said, rows[i].words);
    }
}

/* Where cards come: each word of the set, and what is none of them. */
static void
where_cards_come (void **state)
{
  static const struct { const char *lines; CarpaceCorner corner; CarpaceMonitor monitor; const char *words; } rows[] = {
    { "", CARPACE_CORNER_LOWER_END, CARPACE_MONITOR_GAME, NULL },
    { "cards-corner=lower-end\ncards-monitor=game\n", CARPACE_CORNER_LOWER_END, CARPACE_MONITOR_GAME, NULL },
    { "cards-corner=lower-start\n", CARPACE_CORNER_LOWER_START, CARPACE_MONITOR_GAME, NULL },
    { "cards-corner=upper-end\ncards-monitor=other\n", CARPACE_CORNER_UPPER_END, CARPACE_MONITOR_OTHER, NULL },
    { "cards-corner=upper-start\n", CARPACE_CORNER_UPPER_START, CARPACE_MONITOR_GAME, NULL },
    { "cards-corner=middle\ncards-monitor=other\n", CARPACE_CORNER_LOWER_END, CARPACE_MONITOR_OTHER,
      "cards-corner is none of these: lower-end, lower-start, upper-end, upper-start;" },
    { "cards-monitor=\n", CARPACE_CORNER_LOWER_END, CARPACE_MONITOR_GAME, "cards-monitor is none of these: game, other;" },
    { "cards-corner=\xff\n", CARPACE_CORNER_LOWER_END, CARPACE_MONITOR_GAME, "cards-corner is no text;" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *bytes = g_strconcat ("[carpace]\n", rows[i].lines, NULL);
      CarpaceSettings s;

      write_bytes (bytes, -1);
      g_string_truncate (said, 0);
      carpace_settings_read (&s, hear);
      assert_int_equal (carpace_setting_word (&s, CARPACE_SETTING_CARDS_CORNER), rows[i].corner);
      assert_int_equal (carpace_setting_word (&s, CARPACE_SETTING_CARDS_MONITOR), rows[i].monitor);
      assert_int_equal (lines_said (), rows[i].words != NULL);
      assert_true (rows[i].words == NULL || strstr (said->str, rows[i].words) != NULL);
      carpace_settings_clear (&s);
    }
}

/* What is not written as settings are. */
static void
each_file_that_is_none (void **state)
{
  static const struct { const char *row, *bytes; gssize n; const char *settings; int n_said; const char *words; } rows[] = {
    { "an empty file", "", 0, USUAL, 0, "" },
    { "remarks only", "# none yet\n", -1, USUAL, 0, "" },
    { "no group", "sound=true\n", -1, USUAL, 1, "no setting in it holds" },
    { "a broken line", "[carpace]\nsound=true\nand so on\n", -1, USUAL, 1, "no setting in it holds" },
    { "another group beside it", "[other]\nsound=true\n[carpace]\noverlay-window=true\n", -1,
      "-|0|1|-|carpace-overlay.txt|{words}|1|-", 1, "nothing is read from [other], only from [carpace]" },
    { "the group said otherwise", "[Carpace]\nsound=true\n", -1, USUAL, 1, "nothing is read from [Carpace]" },
    { "the group twice", "[carpace]\nsound=true\n[carpace]\noverlay-window=true\n", -1,
      "-|1|1|-|carpace-overlay.txt|{words}|1|-", 0, "" },
    { "other line ends", "[carpace]\r\nsound=true\r\n", -1, "-|1|1|-|carpace-overlay.txt|{words}|0|-", 0, "" },
    { "NULs", "[carpace]\nsound\0=true\n", 23, USUAL, 1, "settings: " },
    { "a name that moves a cursor", "[carpace]\nso\x1b[2Jund=true\n", -1, USUAL, 1, "settings: " },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      write_bytes (rows[i].bytes, rows[i].n);
      assert_read (rows[i].row, rows[i].settings, rows[i].n_said, rows[i].words);
      assert_null (strchr (said->str, '\x1b'));
    }
}

/* One byte below the most, the most, and one above. */
static void
the_largest_file (void **state)
{
  for (int more = -1; more <= 1; more++)
    {
      g_autoptr (GString) bytes = g_string_new ("[carpace]\nsound=true\n#");

      while (bytes->len < (gsize) (MOST_BYTES + more))
        g_string_append_c (bytes, 'x');
      write_bytes (bytes->str, (gssize) bytes->len);
      if (more <= 0)
        assert_read ("not too large", "-|1|1|-|carpace-overlay.txt|{words}|0|-", 0, "");
      else
        {
          g_autofree char *is = read_now ();
          assert_string_equal (is, USUAL);
          assert_int_equal (lines_said (), 1);
        }
    }
}

static void
assert_refused (const char *what)
{
  g_autofree char *is = read_now ();

  if (strcmp (is, USUAL) != 0 || lines_said () != 1 || strstr (said->str, "/carpace/settings") == NULL)
    fail_msg ("%s: %s\n%s", what, is, said->str);
}

/* A pipe nobody writes to would be waited for without end. */
static void
what_is_no_file_is_refused (void **state)
{
  assert_int_equal (mkfifo (path, 0600), 0);
  assert_refused ("a pipe");
  assert_non_null (strstr (said->str, "is no ordinary file: no setting holds until it is one, or gone.\n"));
  g_remove (path);
  assert_int_equal (symlink ("/dev/zero", path), 0);
  assert_refused ("a device");
  assert_non_null (strstr (said->str, "is no ordinary file: no setting holds until it is one, or gone.\n"));
  g_remove (path);
  assert_int_equal (g_mkdir (path, 0700), 0);
  assert_refused ("a folder");
  g_rmdir (path);
}

static void
no_file_is_as_it_always_was (void **state)
{
  g_remove (path);
  assert_read ("no file", USUAL, 0, "");
  assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
}

/* Nothing in it is secret: whatever mode the player gave it, it is read, and left as it is. */
static void
whatever_its_mode (void **state)
{
  static const mode_t modes[] = { 0400, 0600, 0644, 0666 };

  for (size_t i = 0; i < G_N_ELEMENTS (modes); i++)
    {
      struct stat is;

      write_bytes ("[carpace]\nsound=true\n", -1);
      assert_int_equal (g_chmod (path, (int) modes[i]), 0);
      assert_read ("a mode", "-|1|1|-|carpace-overlay.txt|{words}|0|-", 0, "");
      assert_int_equal (g_stat (path, &is), 0);
      assert_int_equal (is.st_mode & 07777, modes[i]);
      assert_int_equal (is.st_size, strlen ("[carpace]\nsound=true\n"));
    }
}

/* Root may read everything, so it is somebody else for a moment. */
static void
a_file_that_may_not_be_read_is_told (void **state)
{
  uid_t own = geteuid ();

  write_bytes ("[carpace]\nsound=true\n", -1);
  assert_int_equal (g_chmod (path, 0), 0);
  if (own == 0)
    assert_int_equal (seteuid (65534), 0);
  assert_refused ("mode 0");
  if (own == 0)
    assert_int_equal (seteuid (own), 0);
}

static char *
contents (void)
{
  char *bytes = NULL;

  assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  return bytes;
}

/* Remarks, order and what is another's stay where they were; what was written is read back. */
static void
a_change_keeps_what_else_is_there (void **state)
{
  g_autofree char *after = NULL;
  struct stat is;

  write_bytes ("# mine\n\n[carpace]\n# loud\nsound=true\nvolume=3\n\n[other]\nkey=1\n", -1);
  assert_null (carpace_settings_write (CARPACE_SETTING_SOUND, "false"));
  assert_null (carpace_settings_write (CARPACE_SETTING_CHORD, "Super+F1"));
  after = contents ();
  assert_string_equal (after, "# mine\n\n[carpace]\n# loud\nsound=false\nvolume=3\n\nchord=Super+F1\n\n[other]\nkey=1\n");
  assert_int_equal (g_stat (path, &is), 0);
  assert_int_equal (is.st_mode & 07777, 0600);
}

static void
a_text_comes_back_as_it_was_given (void **state)
{
  static const char *const texts[] = { "Back at {until}", " two  spaces ", "a\\b", "a;b=c #d", "", "\xc3\xa4" };

  g_remove (path);
  for (size_t i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      CarpaceSettings s;

      assert_null (carpace_settings_write (CARPACE_SETTING_OVERLAY_LINE, texts[i]));
      carpace_settings_read (&s, hear);
      assert_string_equal (s.overlay_line, texts[i]);
      carpace_settings_clear (&s);
    }
  assert_null (carpace_settings_write (CARPACE_SETTING_OVERLAY_LINE, NULL));
  assert_read ("taken out: as it always was", USUAL, 0, "");
}

static void
what_is_no_key_file_is_not_written (void **state)
{
  static const char bytes[] = "[carpace]\nsound=true\nand so on\n";
  g_autofree char *fault = NULL, *after = NULL;

  write_bytes (bytes, -1);
  fault = carpace_settings_write (CARPACE_SETTING_SOUND, "false");
  assert_non_null (fault);
  assert_non_null (strstr (fault, "/carpace/settings is not changed: "));
  after = contents ();
  assert_string_equal (after, bytes);
}

#define ALONE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

static void
autostart_is_off_unless_said (void **state)
{
  static const struct { const char *bytes; bool on; } rows[] = {
    { "[carpace]\n", false }, { "[carpace]\nautostart=true\n", true }, { "[carpace]\nautostart=false\n", false },
    { "[carpace]\nautostart=2\n", false },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceSettings settings;

      write_bytes (rows[i].bytes, -1);
      carpace_settings_read (&settings, hear);
      assert_int_equal (settings.autostart, rows[i].on);
      carpace_settings_clear (&settings);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ALONE (each_key),
    ALONE (where_cards_come),
    ALONE (each_file_that_is_none),
    ALONE (the_largest_file),
    ALONE (what_is_no_file_is_refused),
    ALONE (no_file_is_as_it_always_was),
    ALONE (whatever_its_mode),
    ALONE (a_file_that_may_not_be_read_is_told),
    ALONE (autostart_is_off_unless_said),
    ALONE (a_change_keeps_what_else_is_there),
    ALONE (a_text_comes_back_as_it_was_given),
    ALONE (what_is_no_key_file_is_not_written),
  };
  g_autofree char *config = g_dir_make_tmp ("carpace-settings-XXXXXX", NULL);
  int failed;

  g_setenv ("XDG_CONFIG_HOME", config, TRUE);
  g_chmod (config, 0755);
  failed = cmocka_run_group_tests (tests, NULL, NULL);
  g_rmdir (config);
  return failed;
}
