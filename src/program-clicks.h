/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-clicks.h: clicks, where the player has them counted. Part of main. */
#ifndef CARPACE_PROGRAM_CLICKS_H
#define CARPACE_PROGRAM_CLICKS_H

struct CarpaceProgram;

/** What the setting asks for. */
void carpace_program_follow_clicks (struct CarpaceProgram *p);

#endif
