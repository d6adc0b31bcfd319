/* SPDX-License-Identifier: GPL-3.0-or-later */
/** notice-card.h: what a notification would say, where nothing shows them. */
#ifndef CARPACE_UI_NOTICE_CARD_H
#define CARPACE_UI_NOTICE_CARD_H

#include "text/notice.h"
#include "ui/card.h"
#include "ui/owner.h"

typedef struct CarpaceNoticeCard CarpaceNoticeCard;

CarpaceNoticeCard *carpace_notice_card_new (const CarpaceOwner *owner);
void carpace_notice_card_free (CarpaceNoticeCard *card);

/** Shows @notice by itself, in place of an earlier one; goes after a while.
 * @param icon of its bar */
void carpace_notice_card_show (CarpaceNoticeCard *card, const CarpaceNotice *notice, const char *icon);

/** What @cue said is over. */
void carpace_notice_card_end (CarpaceNoticeCard *card, CarpaceCue cue);
void carpace_notice_card_hide (CarpaceNoticeCard *card);

/** For tests. */
CarpaceCard *carpace_notice_card_card (CarpaceNoticeCard *card);

#endif
