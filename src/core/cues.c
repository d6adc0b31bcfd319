/* SPDX-License-Identifier: GPL-3.0-or-later */
/* cues.c: a row for each pair of cue and what. */
#include "carpace/cues.h"

const CarpaceToldRow carpace_told_rows[CARPACE_N_TOLD] = {
  [CARPACE_TOLD_MICRO_REST] = { CARPACE_CUE_MICRO_REST, CARPACE_CUE_SHOWN, CARPACE_SHOWN_BY_NOTICE_FIRST,
                                CARPACE_OPENS_CARD, CARPACE_ON_AIR_SHORT_PAUSE, .quiet = false },
  [CARPACE_TOLD_LIMIT] = { CARPACE_CUE_LIMIT, CARPACE_CUE_SHOWN, CARPACE_SHOWN_BY_NOTICE,
                           CARPACE_OPENS_WINDOW, CARPACE_ON_AIR_PART_ENDS, .quiet = true },
  [CARPACE_TOLD_RATING] = { CARPACE_CUE_RATING, CARPACE_CUE_SHOWN, CARPACE_SHOWN_BY_CARD_AT_REST,
                            CARPACE_OPENS_CARD, CARPACE_ON_AIR_PART_OVER, .quiet = false },
  [CARPACE_TOLD_NEXT_BLOCK] = { CARPACE_CUE_NEXT_BLOCK, CARPACE_CUE_SHOWN, CARPACE_SHOWN_BY_NOTICE,
                                CARPACE_OPENS_WINDOW, CARPACE_ON_AIR_PAUSE_OVER, .quiet = false },
  [CARPACE_TOLD_MORNING] = { CARPACE_CUE_MORNING, CARPACE_CUE_SHOWN, CARPACE_SHOWN_BY_CARD,
                             CARPACE_OPENS_CARD, CARPACE_ON_AIR_SILENT, .quiet = false },
  [CARPACE_TOLD_DAY_DONE] = { CARPACE_CUE_DAY_DONE, CARPACE_CUE_SHOWN, CARPACE_SHOWN_BY_NOTICE,
                              CARPACE_OPENS_WHY, CARPACE_ON_AIR_SILENT, .quiet = false },
  [CARPACE_TOLD_CAUTION] = { CARPACE_CUE_CAUTION, CARPACE_CUE_SHOWN, CARPACE_SHOWN_BY_CARD,
                             CARPACE_OPENS_CARD, CARPACE_ON_AIR_SILENT, .quiet = false },
  [CARPACE_TOLD_EARLY_START] = { CARPACE_CUE_NEXT_BLOCK, CARPACE_CUE_ASKED, CARPACE_SHOWN_BY_NOTICE,
                                 CARPACE_OPENS_WINDOW, CARPACE_ON_AIR_GO_ON, .quiet = false },
  [CARPACE_TOLD_BEYOND_PLAN] = { CARPACE_CUE_DAY_DONE, CARPACE_CUE_ASKED, CARPACE_SHOWN_BY_NOTICE,
                                 CARPACE_OPENS_WHY, CARPACE_ON_AIR_GO_ON, .quiet = false },
  [CARPACE_TOLD_UNSTARTED] = { CARPACE_CUE_UNSTARTED, CARPACE_CUE_SHOWN, CARPACE_SHOWN_BY_NOTICE,
                               CARPACE_OPENS_WINDOW, CARPACE_ON_AIR_SILENT, .quiet = true },
  [CARPACE_TOLD_IN_FRONT] = { CARPACE_CUE_UNSTARTED, CARPACE_CUE_ASKED, CARPACE_SHOWN_BY_NOTICE,
                              CARPACE_OPENS_WINDOW, CARPACE_ON_AIR_SILENT, .quiet = true },
  [CARPACE_TOLD_BEGUN] = { CARPACE_CUE_BEGUN, CARPACE_CUE_SHOWN, CARPACE_SHOWN_BY_NOTICE,
                           CARPACE_OPENS_WINDOW, CARPACE_ON_AIR_SILENT, .quiet = true },
};

CarpaceTold
carpace_told (CarpaceCue cue, CarpaceCueWhat what)
{
  for (int i = 0; i < CARPACE_N_TOLD; i++)
    if (carpace_told_rows[i].cue == cue && carpace_told_rows[i].what == what)
      return (CarpaceTold) i;
  return CARPACE_N_TOLD;
}
