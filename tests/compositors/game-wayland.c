/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A full-screen program that runs without X, as a game may: one colour, and a line for all that it notices.
 * usage: game-wayland [NAME]   (what it calls itself: game)
 *
 * Says "focus" and "no focus" (of the keyboard), "click X Y", and "ready" once it is on the screen. Ends with the
 * compositor. */
#define _GNU_SOURCE
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>
#include <wayland-client.h>

#include "xdg-shell-client-protocol.h"

#define COLOUR 0x2a /* of each channel */

static struct
{
  struct wl_compositor *compositor;
  struct wl_shm *shm;
  struct wl_seat *seat;
  struct xdg_wm_base *shell;
  struct wl_surface *surface;
  int32_t width, height;
  int x, y;
  bool told;
} game;

static void
ping (void *data, struct xdg_wm_base *shell, uint32_t serial)
{
  xdg_wm_base_pong (shell, serial);
}

static const struct xdg_wm_base_listener shell_listener = { .ping = ping };

/* ---- one colour ---- */

static struct wl_buffer *
paint (void)
{
  size_t size = (size_t) game.width * (size_t) game.height * 4;
  int fd = memfd_create ("game", MFD_CLOEXEC);
  void *pixels;

  if (fd < 0 || ftruncate (fd, (off_t) size) != 0)
    exit (1);
  pixels = mmap (NULL, size, PROT_READ | PROT_WRITE, MAP_SHARED, fd, 0);
  memset (pixels, COLOUR, size);
  munmap (pixels, size);
  struct wl_shm_pool *pool = wl_shm_create_pool (game.shm, fd, (int32_t) size);
  struct wl_buffer *buffer = wl_shm_pool_create_buffer (pool, 0, game.width, game.height, game.width * 4, WL_SHM_FORMAT_XRGB8888);
  wl_shm_pool_destroy (pool);
  close (fd);
  return buffer;
}

static void
sized (void *data, struct xdg_toplevel *toplevel, int32_t width, int32_t height, struct wl_array *states)
{
  game.width = width > 0 ? width : 64;
  game.height = height > 0 ? height : 64;
}

static void
closed (void *data, struct xdg_toplevel *toplevel)
{
  exit (0);
}

static const struct xdg_toplevel_listener toplevel_listener = { .configure = sized, .close = closed };

static void
configured (void *data, struct xdg_surface *surface, uint32_t serial)
{
  xdg_surface_ack_configure (surface, serial);
  wl_surface_attach (game.surface, paint (), 0, 0);
  wl_surface_damage (game.surface, 0, 0, game.width, game.height);
  wl_surface_commit (game.surface);
  if (!game.told)
    puts ("ready");
  game.told = true;
}

static const struct xdg_surface_listener surface_listener = { .configure = configured };

/* ---- what it notices ---- */

static void
key_map (void *data, struct wl_keyboard *keyboard, uint32_t format, int32_t fd, uint32_t size)
{
  close (fd);
}

static void
key_enter (void *data, struct wl_keyboard *keyboard, uint32_t serial, struct wl_surface *surface, struct wl_array *keys)
{
  puts ("focus");
}

static void
key_leave (void *data, struct wl_keyboard *keyboard, uint32_t serial, struct wl_surface *surface)
{
  puts ("no focus");
}

static void
key (void *data, struct wl_keyboard *keyboard, uint32_t serial, uint32_t time, uint32_t code, uint32_t state)
{
}

static void
modifiers (void *data, struct wl_keyboard *keyboard, uint32_t serial, uint32_t depressed, uint32_t latched, uint32_t locked,
           uint32_t group)
{
}

static const struct wl_keyboard_listener keyboard_listener
  = { .keymap = key_map, .enter = key_enter, .leave = key_leave, .key = key, .modifiers = modifiers };

static void
move (int x, int y)
{
  game.x = x;
  game.y = y;
}

static void
entered (void *data, struct wl_pointer *pointer, uint32_t serial, struct wl_surface *surface, wl_fixed_t x, wl_fixed_t y)
{
  move (wl_fixed_to_int (x), wl_fixed_to_int (y));
}

static void
left (void *data, struct wl_pointer *pointer, uint32_t serial, struct wl_surface *surface)
{
}

static void
moved (void *data, struct wl_pointer *pointer, uint32_t time, wl_fixed_t x, wl_fixed_t y)
{
  move (wl_fixed_to_int (x), wl_fixed_to_int (y));
}

static void
button (void *data, struct wl_pointer *pointer, uint32_t serial, uint32_t time, uint32_t which, uint32_t state)
{
  if (state != 0)
    printf ("click %d %d\n", game.x, game.y);
}

static void
axis (void *data, struct wl_pointer *pointer, uint32_t time, uint32_t which, wl_fixed_t by)
{
}

static const struct wl_pointer_listener pointer_listener
  = { .enter = entered, .leave = left, .motion = moved, .button = button, .axis = axis };

static void
can (void *data, struct wl_seat *seat, uint32_t what)
{
  static bool keys, points;

  if ((what & WL_SEAT_CAPABILITY_KEYBOARD) != 0 && !keys)
    wl_keyboard_add_listener (wl_seat_get_keyboard (seat), &keyboard_listener, NULL);
  if ((what & WL_SEAT_CAPABILITY_POINTER) != 0 && !points)
    wl_pointer_add_listener (wl_seat_get_pointer (seat), &pointer_listener, NULL);
  keys |= (what & WL_SEAT_CAPABILITY_KEYBOARD) != 0;
  points |= (what & WL_SEAT_CAPABILITY_POINTER) != 0;
}

static const struct wl_seat_listener seat_listener = { .capabilities = can };

static void
came (void *data, struct wl_registry *registry, uint32_t name, const char *interface, uint32_t version)
{
  const struct { const struct wl_interface *interface; void *at; } wanted[] = {
    { &wl_compositor_interface, &game.compositor }, { &wl_shm_interface, &game.shm }, { &wl_seat_interface, &game.seat },
    { &xdg_wm_base_interface, &game.shell },
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

int
main (int argc, char **argv)
{
  const char *name = argc > 1 ? argv[1] : "game";
  struct wl_display *display = wl_display_connect (NULL);

  setvbuf (stdout, NULL, _IOLBF, 0);
  if (display == NULL)
    return 1;
  wl_registry_add_listener (wl_display_get_registry (display), &registry_listener, NULL);
  wl_display_roundtrip (display);
  if (game.compositor == NULL || game.shm == NULL || game.seat == NULL || game.shell == NULL)
    return 1;
  wl_seat_add_listener (game.seat, &seat_listener, NULL);
  xdg_wm_base_add_listener (game.shell, &shell_listener, NULL);
  game.surface = wl_compositor_create_surface (game.compositor);
  struct xdg_surface *shown = xdg_wm_base_get_xdg_surface (game.shell, game.surface);
  xdg_surface_add_listener (shown, &surface_listener, NULL);
  struct xdg_toplevel *toplevel = xdg_surface_get_toplevel (shown);
  xdg_toplevel_add_listener (toplevel, &toplevel_listener, NULL);
  xdg_toplevel_set_title (toplevel, name);
  xdg_toplevel_set_app_id (toplevel, name);
  xdg_toplevel_set_fullscreen (toplevel, NULL);
  wl_surface_commit (game.surface);
  while (wl_display_dispatch (display) >= 0)
    ;
  return 0;
}
