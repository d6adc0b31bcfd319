/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-blocks.c: the block that is chosen on the rail: its limit, its drills and their shares. */
#include "ui/planner-pages.h"

#include <glib/gi18n.h>
#include <string.h>

#include "text/plan-rail-text.h"
#include "text/quoted.h"
#include "ui/card.h"
#include "ui/planner-parts.h"
#include "ui/planner-split.h"

/* One drill of the block. */
typedef struct
{
  GtkWidget *box, *pattern, *name, *earlier, *later, *out;
  CarpacePlannerValue *share;
} Part;

typedef struct
{
  CarpacePlannerWindow *window;
  CarpacePlanner *planner;
  GtkWidget *title, *split_note, *write_out, *body, *parts_box, *add, *earlier, *later, *remove;
  CarpacePlannerValue *limit, *wait;
  GPtrArray *parts; /* Part */
  CarpacePlannerSplitter *splitter;
} Page;

static const CarpacePlan *
plan_of (const Page *page)
{
  return carpace_planner_plan (page->planner);
}

static int32_t
block_of (const Page *page)
{
  return carpace_planner_chosen_block (page->window);
}

static int32_t
part_of (GtkWidget *widget)
{
  return GPOINTER_TO_INT (g_object_get_data (G_OBJECT (widget), "part"));
}

/* ---- the block's drills ---- */

static void
move_part (Page *page, int32_t from, int32_t to)
{
  CarpacePlan *plan = carpace_planner_try (page->planner);

  if (plan == NULL || to < 0 || to >= plan->blocks[block_of (page)].n_parts)
    {
      carpace_planner_let_go (page->planner);
      return;
    }
  carpace_plan_try_move_part (plan, block_of (page), from, to);
  carpace_planner_done (page->window, carpace_planner_take (page->planner));
}

static void
part_earlier (GtkWidget *button, Page *page)
{
  move_part (page, part_of (button), part_of (button) - 1);
}

static void
part_later (GtkWidget *button, Page *page)
{
  move_part (page, part_of (button), part_of (button) + 1);
}

static void
part_out (GtkWidget *button, Page *page)
{
  carpace_planner_done (page->window, carpace_planner_remove_part (page->planner, block_of (page), part_of (button)));
}

static GtkWidget *
part_button (Page *page, Part *part, int32_t i, const char *text, GCallback clicked)
{
  GtkWidget *button = carpace_part_button (text);

  g_object_set_data (G_OBJECT (button), "part", GINT_TO_POINTER (i));
  g_signal_connect (button, "clicked", clicked, page);
  gtk_box_pack_start (GTK_BOX (part->box), button, FALSE, FALSE, 0);
  return button;
}

static void
add_part_row (Page *page, int32_t i)
{
  Part *part = g_new0 (Part, 1);
  CarpacePlannerValueOwner owner = carpace_planner_value_owner (page->window);

  part->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  part->pattern = carpace_part_pattern ();
  gtk_box_pack_start (GTK_BOX (part->box), part->pattern, FALSE, FALSE, 0);
  part->share = carpace_planner_value_new (&owner, "", NULL, NULL);
  gtk_box_pack_start (GTK_BOX (part->box), carpace_planner_value_widget (part->share), TRUE, TRUE, 0);
  part->earlier = part_button (page, part, i, _("Earlier"), G_CALLBACK (part_earlier));
  part->later = part_button (page, part, i, _("Later"), G_CALLBACK (part_later));
  part->out = part_button (page, part, i, _("Take out"), G_CALLBACK (part_out));
  gtk_widget_show_all (part->box);
  carpace_part_append (page->parts_box, part->box, 4);
  g_ptr_array_add (page->parts, part);
}

static void
remove_last_part (Page *page)
{
  Part *part = page->parts->pdata[page->parts->len - 1];

  gtk_widget_destroy (part->box);
  g_ptr_array_remove_index (page->parts, page->parts->len - 1);
}

static void
name_button (GtkWidget *button, const char *verb, const char *drill)
{
  g_autofree char *spoken = g_strdup_printf ("%s: %s", verb, drill);

  carpace_card_name (button, spoken, NULL);
}

static void
show_part (Page *page, const CarpaceBlock *block, int32_t i)
{
  Part *part = page->parts->pdata[i];
  const CarpaceDrill *drill = &plan_of (page)->drills[block->parts[i].drill];
  g_autofree char *name = carpace_text_harmless (drill->name);
  g_autofree char *path = g_strdup_printf ("blocks[%d].drills[%d].share", block_of (page), i);
  g_autofree char *spoken = g_strdup_printf (_("Share of %s"), name);
  bool by_hand = plan_of (page)->split_into == 0;

  carpace_part_set_pattern (part->pattern, block->parts[i].drill);
  carpace_planner_value_say (part->share, name);
  carpace_planner_value_set_path (part->share, path, spoken);
  name_button (part->earlier, _("Earlier"), name);
  name_button (part->later, _("Later"), name);
  name_button (part->out, _("Take out"), name);
  gtk_widget_set_sensitive (part->earlier, by_hand && i > 0);
  gtk_widget_set_sensitive (part->later, by_hand && i + 1 < block->n_parts);
  gtk_widget_set_sensitive (part->out, by_hand && block->n_parts > 1);
  gtk_widget_set_sensitive (carpace_planner_value_widget (part->share), by_hand && block->n_parts > 1);
}

/* ---- drills to be added ---- */

static void
drill_added (GtkWidget *item, Page *page)
{
  carpace_planner_done (page->window, carpace_planner_add_part (page->planner, block_of (page), part_of (item)));
}

static void
fill_add (Page *page, const CarpacePlan *plan)
{
  GtkWidget *menu = gtk_menu_new ();

  gtk_style_context_add_class (gtk_widget_get_style_context (menu), "carpace-menu");
  for (int32_t i = 0; i < plan->n_drills; i++)
    {
      g_autofree char *name = carpace_text_harmless (plan->drills[i].name);
      GtkWidget *item = gtk_menu_item_new_with_label (name);

      g_object_set_data (G_OBJECT (item), "part", GINT_TO_POINTER (i));
      g_signal_connect (item, "activate", G_CALLBACK (drill_added), page);
      gtk_menu_shell_append (GTK_MENU_SHELL (menu), item);
    }
  gtk_widget_show_all (menu);
  gtk_menu_button_set_popup (GTK_MENU_BUTTON (page->add), menu);
}

/* ---- the block ---- */

static void
move_block (Page *page, int32_t by)
{
  CarpacePlan *plan = carpace_planner_try (page->planner);
  int32_t from = block_of (page), to = from + by;

  if (plan == NULL || to < 0 || to >= plan->n_blocks)
    {
      carpace_planner_let_go (page->planner);
      return;
    }
  carpace_plan_try_move_block (plan, from, to);
  carpace_planner_done (page->window, carpace_planner_take (page->planner));
  carpace_planner_choose (page->window, to, -1);
}

static void
block_earlier (Page *page)
{
  move_block (page, -1);
}

static void
block_later (Page *page)
{
  move_block (page, 1);
}

static void
block_duplicated (Page *page)
{
  int32_t block = block_of (page);

  carpace_planner_done (page->window, carpace_planner_duplicate_block (page->planner, block));
  carpace_planner_choose (page->window, block + 1, -1);
}

static void
block_removed (Page *page)
{
  carpace_planner_done (page->window, carpace_planner_remove_block (page->planner, block_of (page)));
}

static void
written_out (Page *page)
{
  carpace_planner_done (page->window, carpace_planner_write_out (page->planner));
}

static void
changed (void *self)
{
  Page *page = self;
  const CarpacePlan *plan = plan_of (page);
  int32_t block = block_of (page);
  bool by_hand = plan != NULL && plan->split_into == 0;

  gtk_widget_set_sensitive (page->body, plan != NULL && plan->n_blocks > 0);
  if (plan == NULL || plan->n_blocks == 0)
    return;
  g_autofree char *title = carpace_text_rail_block (plan, block), *limit = g_strdup_printf ("blocks[%d].limit", block);
  g_autofree char *spoken = g_strdup_printf (_("Limit of block %d"), block + 1);

  carpace_card_say (page->title, title);
  carpace_planner_value_set_path (page->limit, limit, spoken);
  carpace_planner_value_show (page->wait);
  while ((int32_t) page->parts->len > plan->blocks[block].n_parts)
    remove_last_part (page);
  while ((int32_t) page->parts->len < plan->blocks[block].n_parts)
    add_part_row (page, (int32_t) page->parts->len);
  for (int32_t i = 0; i < plan->blocks[block].n_parts; i++)
    show_part (page, &plan->blocks[block], i);
  fill_add (page, plan);
  gtk_widget_set_sensitive (carpace_planner_value_widget (page->limit), by_hand);
  gtk_widget_set_sensitive (page->add, by_hand);
  gtk_widget_set_sensitive (page->earlier, by_hand && block > 0);
  gtk_widget_set_sensitive (page->later, by_hand && block + 1 < plan->n_blocks);
  gtk_widget_set_sensitive (page->remove, by_hand && plan->n_blocks > 1);
  gtk_widget_set_visible (page->split_note, !by_hand);
  gtk_widget_set_visible (page->write_out, !by_hand);
  carpace_planner_splitter_changed (page->splitter);
}

static bool
jump (void *self, const char *path)
{
  Page *page = self;
  int block = 0;

  if (plan_of (page) == NULL || sscanf (path, "blocks[%d]", &block) != 1 || block < 0 || block >= plan_of (page)->n_blocks)
    return false; /* the plan that is shown is older than the file, and may have fewer */
  carpace_planner_choose (page->window, block, -1);
  for (guint i = 0; i < page->parts->len; i++)
    if (carpace_planner_value_has (((Part *) page->parts->pdata[i])->share, path))
      {
        carpace_planner_value_focus (((Part *) page->parts->pdata[i])->share);
        return true;
      }
  carpace_planner_value_focus (page->limit);
  return true;
}

/* ---- how it is built ---- */

static GtkWidget *
block_buttons (Page *page)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *duplicate = carpace_part_button (_("Duplicate block"));

  page->earlier = carpace_part_button (_("Block earlier"));
  page->later = carpace_part_button (_("Block later"));
  page->remove = carpace_part_button (_("Remove block"));
  g_signal_connect_swapped (page->earlier, "clicked", G_CALLBACK (block_earlier), page);
  g_signal_connect_swapped (page->later, "clicked", G_CALLBACK (block_later), page);
  g_signal_connect_swapped (duplicate, "clicked", G_CALLBACK (block_duplicated), page);
  g_signal_connect_swapped (page->remove, "clicked", G_CALLBACK (block_removed), page);
  gtk_box_pack_start (GTK_BOX (box), page->earlier, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), page->later, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), duplicate, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), page->remove, FALSE, FALSE, 0);
  return box;
}

static GtkWidget *
make (void *self)
{
  Page *page = self;
  CarpacePlannerValueOwner owner = carpace_planner_value_owner (page->window);
  GtkWidget *scrolled = carpace_part_page (&page->body);

  page->title = carpace_part_words ("", "carpace-section");
  page->limit = carpace_planner_value_new (&owner, _("Limit of practice time"), NULL, NULL);
  carpace_planner_value_lockable (page->limit);
  page->wait = carpace_planner_value_new (&owner, _("Wait between blocks"), NULL, NULL);
  carpace_planner_value_set_path (page->wait, carpace_name (CARPACE_WORDS_PLAN_KEY, CARPACE_KEY_DAY_BETWEEN_BLOCKS), NULL);
  page->split_note = carpace_part_words (_("These blocks are worked out by the plan's split."), NULL);
  page->write_out = carpace_part_button (_("Write the blocks out to change them"));
  gtk_widget_set_halign (page->write_out, GTK_ALIGN_START);
  g_signal_connect_swapped (page->write_out, "clicked", G_CALLBACK (written_out), page);
  page->parts_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  page->add = gtk_menu_button_new ();
  gtk_container_add (GTK_CONTAINER (page->add), gtk_label_new (_("Add a drill to this block")));
  carpace_card_name (page->add, _("Add a drill to this block"), NULL);
  gtk_style_context_add_class (gtk_widget_get_style_context (page->add), "carpace-plain");
  gtk_widget_set_halign (page->add, GTK_ALIGN_START);
  carpace_part_append (page->body, page->title, 0);
  carpace_part_append (page->body, page->split_note, 4);
  carpace_part_append (page->body, page->write_out, 4);
  carpace_part_append (page->body, carpace_planner_value_widget (page->limit), 4);
  carpace_part_append (page->body, page->parts_box, 0);
  carpace_part_append (page->body, page->add, 8);
  carpace_part_append (page->body, block_buttons (page), 8);
  carpace_part_append (page->body, carpace_planner_value_widget (page->wait), 8);
  page->splitter = carpace_planner_splitter_new (page->window);
  carpace_part_append (page->body, carpace_planner_splitter_widget (page->splitter), 16);
  gtk_widget_show_all (page->body);
  gtk_widget_set_no_show_all (page->split_note, TRUE);
  gtk_widget_set_no_show_all (page->write_out, TRUE);
  return scrolled;
}

static void
freed (gpointer self)
{
  Page *page = self;

  g_free (page->splitter);
  g_ptr_array_unref (page->parts); /* their widgets went with the window */
  g_free (page);
}

void
carpace_planner_add_blocks (CarpacePlannerWindow *window)
{
  Page *page = g_new0 (Page, 1);

  page->window = window;
  page->planner = carpace_planner_of (window);
  page->parts = g_ptr_array_new_with_free_func (g_free);
  carpace_planner_window_add_page (window, &(CarpacePlannerPage) { .title = _("Blocks"), .self = page, .make = make, .changed = changed, .of_chosen = true,
                                                                     .jump = jump, .free = freed });
}
