/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* O_CLOEXEC, AT_FDCWD */
#include "draft-file.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include "carpace/ports.h"
#include "files/in.h"
#include "files/out.h"

#define NAMELESS 8 /* documents without a path that can be open at once */

struct CarpaceDraft
{
  char *path, *lock_path;
  int lock;
};

static CarpaceDraft *
open_as (const char *folder, const char *name)
{
  CarpaceDraft *draft = g_new0 (CarpaceDraft, 1);
  g_autofree char *file = g_strconcat (name, ".plan.yaml", NULL), *lock = g_strconcat (name, ".lock", NULL);

  draft->path = g_build_filename (folder, file, NULL);
  draft->lock_path = g_build_filename (folder, lock, NULL);
  draft->lock = open (draft->lock_path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (draft->lock >= 0 && flock (draft->lock, LOCK_EX | LOCK_NB) == 0)
    return draft;
  if (draft->lock >= 0)
    close (draft->lock);
  draft->lock = -1;
  carpace_draft_free (draft);
  return NULL;
}

/* The one that was left with something is looked for first. */
static CarpaceDraft *
open_nameless (const char *folder)
{
  CarpaceDraft *found = NULL;

  for (int i = 1; i <= NAMELESS; i++)
    {
      g_autofree char *name = g_strdup_printf ("new-%d", i);
      CarpaceDraft *draft = open_as (folder, name);
      g_autoptr (GBytes) left = draft != NULL ? carpace_draft_left (draft) : NULL;

      if (draft != NULL && (found == NULL || left != NULL))
        {
          carpace_draft_free (found);
          found = draft;
          if (left != NULL)
            break;
        }
      else
        carpace_draft_free (draft);
    }
  return found;
}

CarpaceDraft *
carpace_draft_open (const char *path, const char *folder)
{
  g_autofree char *usual = folder != NULL ? g_strdup (folder) : g_build_filename (g_get_user_state_dir (), "carpace", "drafts", NULL);
  g_autofree char *name = path != NULL ? g_compute_checksum_for_string (G_CHECKSUM_SHA256, path, -1) : NULL;

  if (g_mkdir_with_parents (usual, 0700) != 0)
    return NULL;
  return name != NULL ? open_as (usual, name) : open_nameless (usual);
}

void
carpace_draft_free (CarpaceDraft *draft)
{
  if (draft == NULL)
    return;
  if (draft->lock >= 0)
    {
      unlink (draft->lock_path); /* while it is still locked */
      close (draft->lock);
    }
  g_free (draft->path);
  g_free (draft->lock_path);
  g_free (draft);
}

GBytes *
carpace_draft_left (const CarpaceDraft *draft)
{
  CarpaceFileTrouble trouble;
  GString *bytes = carpace_in_read (draft->path, CARPACE_PLAN_FILE_BYTES, CARPACE_IN_FILE, &trouble);

  return bytes != NULL ? g_string_free_to_bytes (bytes) : NULL;
}

bool
carpace_draft_write (CarpaceDraft *draft, const char *bytes, gsize n)
{
  return carpace_out_write (AT_FDCWD, draft->path, CARPACE_OUT_AGAIN, bytes, n) == CARPACE_FILE_FINE;
}

void
carpace_draft_clear (CarpaceDraft *draft)
{
  unlink (draft->path);
}
