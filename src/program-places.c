/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-places.c: where the program finds what belongs to it. */
#include "program-places.h"

#include <gmodule.h>
#include <string.h>

#include "carpace-config.h"

static bool
is_in_build_folder (void)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);

  return CARPACE_BUILD_FOLDER[0] != '\0' && program != NULL && g_str_has_prefix (program, CARPACE_BUILD_FOLDER G_DIR_SEPARATOR_S);
}

const char *
carpace_program_uninstalled (const char *folder)
{
  return is_in_build_folder () && g_getenv ("CARPACE_PLANS") == NULL ? folder : NULL;
}

/* A copy of the program that stands elsewhere, as one does that another user may read, has its modules beside it. */
static GModule *
open_beside (const char *name)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = program != NULL ? g_path_get_dirname (program) : NULL;
  g_autofree char *path = folder != NULL ? g_build_filename (folder, name, NULL) : NULL;

  return path != NULL ? g_module_open (path, G_MODULE_BIND_LAZY | G_MODULE_BIND_LOCAL) : NULL;
}

bool
carpace_program_module (const char *room, const char *name, const char *symbol, void (**ret_function) (void))
{
  bool built = is_in_build_folder (); /* whatever plans it was told of */
  g_autofree char *path = built ? g_build_filename (CARPACE_BUILD_FOLDER, "src", room, name, NULL)
                                : g_build_filename (CARPACE_MODULES, name, NULL);
  GModule *module = g_module_open (path, G_MODULE_BIND_LAZY | G_MODULE_BIND_LOCAL);
  gpointer found = NULL;

  *ret_function = NULL;
  if (module == NULL && !built)
    module = open_beside (name);
  if (module == NULL || !g_module_symbol (module, symbol, &found))
    return false;
  g_module_make_resident (module); /* a thread of it may still run */
  memcpy (ret_function, &found, sizeof *ret_function); /* ISO C has no cast from an object to a function */
  return true;
}

const CarpaceLayers *
carpace_program_layers (void)
{
  void (*found) (void);

  return carpace_program_module ("ui", "carpace-layers.so", "carpace_card_layers", &found)
         ? ((const CarpaceLayers *(*) (void)) found) () : NULL;
}

CarpaceSound
carpace_program_sound (void)
{
  void (*found) (void);

  if (!carpace_program_module ("adapters", "carpace-sound.so", "carpace_sound_gsound", &found))
    return (CarpaceSound) { 0 };
  return ((CarpaceSound (*) (void)) found) ();
}
