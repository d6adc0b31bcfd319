/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-yaml-text.h: texts as YAML has them, for those who write a plan and those who change one. */
#ifndef CARPACE_FORMS_PLAN_YAML_TEXT_H
#define CARPACE_FORMS_PLAN_YAML_TEXT_H

#include <glib.h>
#include <stdbool.h>

/** Appends @text in quotation marks, so that it is taken for nothing else. */
void carpace_yaml_append_text (GString *out, const char *text);

/** Appends an id, in quotation marks where YAML could take it for a number or a truth value. */
void carpace_yaml_append_id (GString *out, const char *id);

/** Whether @text is read without quotation marks as what it is. */
bool carpace_yaml_is_plain (const char *text, bool in_brackets);

/** Whether some reader of YAML, an older one too, takes plain @text for something other than text. */
bool carpace_yaml_is_taken (const char *text);

#endif
