/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A hand on a compositor's pointer, and a program that holds the screen awake.
 *
 * usage: hand-wayland [--awake]
 * Reads lines: "move" (125 times a second), "still", "click X Y" (of the left button, there). Says "ready" once it
 * can, and when it is still how long it moved and how long it paused in between at most, in ms: "moved M paused P", since
 * a busy compositor holds it up. Ends with its input. With --awake it shows a window that inhibits idleness throughout. */
#define _GNU_SOURCE
#include <errno.h>
#include <linux/input-event-codes.h>
#include <poll.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <time.h>
#include <unistd.h>
#include <wayland-client.h>

#include "idle-inhibit-client-protocol.h"
#include "kde-fake-input-client-protocol.h"
#include "wlr-virtual-pointer-client-protocol.h"
#include "xdg-shell-client-protocol.h"

#define EVERY_MS 8
#define SIDE 64
#define FAR 10000 /* further than any edge */

static struct
{
  struct wl_display *display;
  struct wl_compositor *compositor;
  struct wl_shm *shm;
  struct wl_seat *seat;
  struct xdg_wm_base *shell;
  struct zwp_idle_inhibit_manager_v1 *inhibits;
  struct zwlr_virtual_pointer_manager_v1 *pointers;
  struct zwlr_virtual_pointer_v1 *pointer;
  struct org_kde_kwin_fake_input *fake;
  struct wl_surface *surface;
  bool shown;
  int64_t first_ms, last_ms, paused_ms; /* of the motion under way */
} hand;

static void
pinged (void *data, struct xdg_wm_base *shell, uint32_t serial)
{
  xdg_wm_base_pong (shell, serial);
}

static const struct xdg_wm_base_listener shell_listener = { .ping = pinged };

static void
came (void *data, struct wl_registry *registry, uint32_t name, const char *interface, uint32_t version)
{
  const struct { const struct wl_interface *interface; void *at; } wanted[] = {
    { &wl_compositor_interface, &hand.compositor },
    { &wl_shm_interface, &hand.shm },
    { &wl_seat_interface, &hand.seat },
    { &xdg_wm_base_interface, &hand.shell },
    { &zwp_idle_inhibit_manager_v1_interface, &hand.inhibits },
    { &zwlr_virtual_pointer_manager_v1_interface, &hand.pointers },
    { &org_kde_kwin_fake_input_interface, &hand.fake },
  };
  for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++)
    if (strcmp (interface, wanted[i].interface->name) == 0)
      *(void **) wanted[i].at = wl_registry_bind (registry, name, wanted[i].interface, 1);
}

static void
went (void *data, struct wl_registry *registry, uint32_t name)
{
}

static const struct wl_registry_listener registry_listener = { .global = came, .global_remove = went };

static struct wl_buffer *
grey (void)
{
  int fd = memfd_create ("grey", MFD_CLOEXEC);
  size_t size = SIDE * SIDE * 4;
  if (fd < 0 || ftruncate (fd, (off_t) size) != 0)
    exit (1);
  void *pixels = mmap (NULL, size, PROT_READ | PROT_WRITE, MAP_SHARED, fd, 0);
  memset (pixels, 0x80, size);
  struct wl_shm_pool *pool = wl_shm_create_pool (hand.shm, fd, (int32_t) size);
  return wl_shm_pool_create_buffer (pool, 0, SIDE, SIDE, SIDE * 4, WL_SHM_FORMAT_XRGB8888);
}

static void
configured (void *data, struct xdg_surface *surface, uint32_t serial)
{
  xdg_surface_ack_configure (surface, serial);
  wl_surface_attach (hand.surface, grey (), 0, 0);
  wl_surface_damage (hand.surface, 0, 0, SIDE, SIDE);
  wl_surface_commit (hand.surface);
  hand.shown = true;
}

static const struct xdg_surface_listener surface_listener = { .configure = configured };

static void
hold_awake (void)
{
  if (hand.compositor == NULL || hand.shm == NULL || hand.shell == NULL || hand.inhibits == NULL)
    {
      fprintf (stderr, "this compositor lets nobody hold the screen awake\n");
      exit (1);
    }
  xdg_wm_base_add_listener (hand.shell, &shell_listener, NULL);
  hand.surface = wl_compositor_create_surface (hand.compositor);
  struct xdg_surface *shown = xdg_wm_base_get_xdg_surface (hand.shell, hand.surface);
  xdg_surface_add_listener (shown, &surface_listener, NULL);
  xdg_toplevel_set_title (xdg_surface_get_toplevel (shown), "awake");
  zwp_idle_inhibit_manager_v1_create_inhibitor (hand.inhibits, hand.surface);
  wl_surface_commit (hand.surface);
  while (!hand.shown && wl_display_dispatch (hand.display) >= 0)
    ;
  wl_display_roundtrip (hand.display);
}

static void
move_by (int right, int down)
{
  if (hand.pointer != NULL)
    {
      zwlr_virtual_pointer_v1_motion (hand.pointer, 0, wl_fixed_from_int (right), wl_fixed_from_int (down));
      zwlr_virtual_pointer_v1_frame (hand.pointer);
    }
  else
    org_kde_kwin_fake_input_pointer_motion (hand.fake, wl_fixed_from_int (right), wl_fixed_from_int (down));
}

static int64_t
now_ms (void)
{
  struct timespec now;
  clock_gettime (CLOCK_MONOTONIC, &now);
  return (int64_t) now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* The compositor has taken it when this returns. */
static void
move (void)
{
  static int step = 1;
  step = -step;
  move_by (step, 0);
  wl_display_roundtrip (hand.display);
  int64_t now = now_ms ();
  if (hand.first_ms == 0)
    hand.first_ms = hand.last_ms = now;
  if (now - hand.last_ms > hand.paused_ms)
    hand.paused_ms = now - hand.last_ms;
  hand.last_ms = now;
}

static void
be_still (void)
{
  printf ("moved %lld paused %lld\n", (long long) (hand.last_ms - hand.first_ms), (long long) hand.paused_ms);
  fflush (stdout);
  hand.first_ms = hand.last_ms = hand.paused_ms = 0;
}

static void
press (uint32_t state)
{
  if (hand.pointer != NULL)
    {
      zwlr_virtual_pointer_v1_button (hand.pointer, 0, BTN_LEFT, state);
      zwlr_virtual_pointer_v1_frame (hand.pointer);
    }
  else
    org_kde_kwin_fake_input_button (hand.fake, BTN_LEFT, state);
}

/* From the upper left corner, where every pointer ends. */
static void
click (int x, int y)
{
  move_by (-FAR, -FAR);
  move_by (x, y);
  press (1);
  press (0);
}

int
main (int argc, char **argv)
{
  hand.display = wl_display_connect (NULL);
  if (hand.display == NULL)
    return 1;
  struct wl_registry *registry = wl_display_get_registry (hand.display);
  wl_registry_add_listener (registry, &registry_listener, NULL);
  wl_display_roundtrip (hand.display);
  if (hand.pointers != NULL)
    hand.pointer = zwlr_virtual_pointer_manager_v1_create_virtual_pointer (hand.pointers, hand.seat);
  else if (hand.fake != NULL)
    org_kde_kwin_fake_input_authenticate (hand.fake, "hand", "a test");
  if (argc > 1 && strcmp (argv[1], "--awake") == 0)
    hold_awake ();
  if (hand.pointer == NULL && hand.fake == NULL)
    fprintf (stderr, "no pointer can be moved here\n");
  wl_display_roundtrip (hand.display);
  printf ("ready\n");
  fflush (stdout);

  bool moving = false;
  char line[64];
  struct pollfd fds[] = { { .fd = wl_display_get_fd (hand.display), .events = POLLIN }, { .fd = STDIN_FILENO, .events = POLLIN } };
  for (;;)
    {
      while (wl_display_prepare_read (hand.display) != 0)
        wl_display_dispatch_pending (hand.display);
      wl_display_flush (hand.display);
      poll (fds, 2, moving ? EVERY_MS : -1);
      if ((fds[0].revents & POLLIN) != 0)
        wl_display_read_events (hand.display);
      else
        wl_display_cancel_read (hand.display);
      if (wl_display_dispatch_pending (hand.display) < 0)
        return 1;
      if (fds[1].revents != 0)
        {
          ssize_t n = read (STDIN_FILENO, line, sizeof line - 1);
          if (n <= 0)
            return 0;
          line[n] = '\0';
          int x, y;
          if (sscanf (line, "click %d %d", &x, &y) == 2)
            click (x, y);
          if (strstr (line, "still") != NULL)
            be_still ();
          moving = strstr (line, "move") != NULL;
        }
      if (moving && (hand.pointer != NULL || hand.fake != NULL))
        move ();
    }
}
