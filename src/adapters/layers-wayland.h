/* SPDX-License-Identifier: GPL-3.0-or-later */
/** layers-wayland.h: whether a compositor has a place for cards, for whoever asks what the desktop offers. */
#ifndef CARPACE_LAYERS_WAYLAND_H
#define CARPACE_LAYERS_WAYLAND_H

#include "carpace/desktop.h"

/** How cards come on this session's compositor; it is waited for 2 s at most. @return CARPACE_CARDS_NONE where none answers */
CarpaceCardsOffer carpace_layers_wayland_look (void);

#endif
