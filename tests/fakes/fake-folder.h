/* SPDX-License-Identifier: GPL-3.0-or-later */
/** fake-folder.h: a folder in memory, which can be full, read-only or gone. */
#ifndef CARPACE_FAKE_FOLDER_H
#define CARPACE_FAKE_FOLDER_H

#include <glib.h>

#include "carpace/folder.h"

typedef struct
{
  GHashTable *files;  /* name -> GByteArray */
  int error;          /* errno of whatever is written; 0: none */
  const char *only;   /* where not NULL: of the file of that name only */
  bool gone;          /* nothing can be listed either */
  int32_t writes;
} FakeFolder;

void fake_folder_begin (FakeFolder *fake);
void fake_folder_end (FakeFolder *fake);
CarpaceFolder fake_folder_port (FakeFolder *fake);

/** The file of that name; NULL where there is none. */
GByteArray *fake_folder_file (FakeFolder *fake, const char *name);
/** The names in order, those that end with @ends. g_ptr_array_unref() them */
GPtrArray *fake_folder_names (FakeFolder *fake, const char *ends);
/** Puts one there, as somebody else would. */
void fake_folder_put (FakeFolder *fake, const char *name, const void *bytes, size_t n);

#endif
