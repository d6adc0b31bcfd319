/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-window.h: the practice window: chosen, followed, told of to the session. */
#ifndef CARPACE_PROGRAM_WINDOW_H
#define CARPACE_PROGRAM_WINDOW_H

#include <stdbool.h>

struct CarpaceProgram;
typedef struct CarpaceProgramWindow CarpaceProgramWindow;

/** Follows the windows that the settings name, from now on; where they name none, practice is anywhere. */
CarpaceProgramWindow *carpace_program_window_new (struct CarpaceProgram *p);
void carpace_program_window_free (CarpaceProgramWindow *window);

/** The settings are others, or a plan is in use that was not: what holds is told. NULL is fine. */
void carpace_program_window_changed (CarpaceProgramWindow *window);

/** Lets the player choose one; says in words how. */
void carpace_program_window_pick (CarpaceProgramWindow *window);

/** `window pick`, `list` and `forget [NAME]`. @return an exit status; *ret_message is g_free()d */
int carpace_program_window_command (CarpaceProgramWindow *window, int n_words, const char *const *words, char **ret_message);

#endif
