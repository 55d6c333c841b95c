/*
 * The native board on a pseudo-terminal, in real time: prints the path to open, then plays until it is interrupted.
 *
 *   bridge-native [--link PATH] [--lasting FILE]
 *
 * --link names the terminal as well; --lasting keeps the lasting memory in a file. The gantry is whatever the host says that the
 * machine is, its carriage somewhere over the grid. Hands work on standard input, a line each:
 *
 *   e-stop open | e-stop closed | start down | start up | endstop AXIS FAULT | reset | state
 */
#define _XOPEN_SOURCE 600
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "../../core/bridge.h"
#include "native.h"

enum { LASTING = 1024, CHUNK = 4096 };

static volatile sig_atomic_t ends;

static void on_signal(int number)
{
    (void)number;
    ends = 1;
}

static uint64_t microseconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (uint64_t)now.tv_sec * 1000000u + (uint64_t)now.tv_nsec / 1000u;
}

/* The other end is kept open here too, so that a host may come and go. */
static int open_terminal(const char **path, int *other)
{
    struct termios raw;
    int terminal = posix_openpt(O_RDWR | O_NOCTTY);
    if (terminal < 0 || grantpt(terminal) != 0 || unlockpt(terminal) != 0)
        return -1;
    *path = ptsname(terminal);
    *other = open(*path, O_RDWR | O_NOCTTY);
    if (*other < 0 || tcgetattr(*other, &raw) != 0)
        return -1;
    raw.c_iflag = 0;
    raw.c_oflag = 0;
    raw.c_lflag = 0;
    raw.c_cflag = CS8 | CREAD | CLOCAL;
    tcsetattr(*other, TCSANOW, &raw);
    fcntl(terminal, F_SETFL, O_NONBLOCK);
    return terminal;
}

static void fit_axis(void *memory, const bridge_setup *setup, uint8_t axis)
{
    int32_t far = setup_far_steps(setup, axis);
    int32_t gap = (int32_t)setup_axis_number(setup, axis, AXIS_ENDSTOP_GAP);
    int32_t room = far + 100000;
    if (setup_endstop_at_max(setup, axis))
        native_set_axis(memory, axis, far / 3, far + gap, 1, -room, far + gap + 50);
    else
        native_set_axis(memory, axis, far / 3, -gap, 0, -gap - 50, far + room);
}

/* Builds the gantry anew whenever the machine that the host has told of is another. */
static void fit_gantry(void *memory, bridge_setup *fitted)
{
    const bridge *board = memory;
    if (!setup_is_complete(&board->setup) || !setup_fits(&board->setup) || memcmp(fitted, &board->setup, sizeof *fitted) == 0)
        return;
    *fitted = board->setup;
    for (uint8_t axis = 0; axis < fitted->axes; axis++)
        fit_axis(memory, fitted, axis);
}

static void obey(void *memory, const char *line)
{
    unsigned axis, fault;
    if (strncmp(line, "e-stop open", 11) == 0)
        native_set_e_stop(memory, 1);
    else if (strncmp(line, "e-stop closed", 13) == 0)
        native_set_e_stop(memory, 0);
    else if (strncmp(line, "start down", 10) == 0)
        native_set_start(memory, 1);
    else if (strncmp(line, "start up", 8) == 0)
        native_set_start(memory, 0);
    else if (sscanf(line, "endstop %u %u", &axis, &fault) == 2 && axis < 3 && fault < 3)
        native_set_endstop(memory, (uint8_t)axis, (uint8_t)fault);
    else if (strncmp(line, "reset", 5) == 0)
        native_reset(memory, BRIDGE_RESET_EXTERNAL);
    else if (strncmp(line, "state", 5) == 0)
        printf("state %u cause %u at %d %d %d worked %u heads %u %u\n", native_state(memory), native_cause(memory), native_place(memory, 0),
            native_place(memory, 1), native_place(memory, 2), native_worked(memory), native_head(memory, 0), native_head(memory, 1));
    else
        printf("not understood: %s", line);
    fflush(stdout);
}

/* One look at hands and line, no longer than a millisecond; false where hands have gone. */
static bool listen(void *memory, int terminal, bool has_hands)
{
    struct pollfd looks[2] = {{terminal, POLLIN, 0}, {has_hands ? STDIN_FILENO : -1, POLLIN, 0}};
    uint8_t octets[CHUNK];
    char line[200];
    if (poll(looks, 2, 1) <= 0)
        return has_hands;
    ssize_t count = looks[0].revents ? read(terminal, octets, sizeof octets) : 0;
    if (count > 0)
        native_receive(memory, octets, (size_t)count);
    if (looks[1].revents == 0)
        return has_hands;
    if (fgets(line, sizeof line, stdin) == NULL)
        return false;
    obey(memory, line);
    return true;
}

/* What nobody reads is lost, as on a serial line. */
static void speak(void *memory, int terminal)
{
    uint8_t octets[CHUNK];
    size_t count;
    while ((count = native_take(memory, octets, sizeof octets)) > 0)
        if (write(terminal, octets, count) < 0 && errno != EAGAIN)
            return;
}

static void play(void *memory, int terminal)
{
    bridge_setup fitted;
    uint64_t began = microseconds();
    bool has_hands = true;
    memset(&fitted, 0, sizeof fitted);
    while (!ends) {
        has_hands = listen(memory, terminal, has_hands);
        fit_gantry(memory, &fitted);
        native_advance(memory, microseconds() - began - native_now(memory));
        speak(memory, terminal);
    }
}

static void load(void *memory, const char *path)
{
    FILE *file = path ? fopen(path, "rb") : NULL;
    if (file == NULL)
        return;
    size_t count = fread(native_lasting(memory), 1, LASTING, file);
    fclose(file);
    if (count != LASTING)
        fprintf(stderr, "%s is shorter than %d octets\n", path, LASTING);
}

static void save(void *memory, const char *path)
{
    FILE *file = path ? fopen(path, "wb") : NULL;
    if (file == NULL)
        return;
    if (fwrite(native_lasting(memory), 1, LASTING, file) != LASTING)
        perror(path);
    fclose(file);
}

int main(int count, char **arguments)
{
    const char *link_path = NULL, *lasting_path = NULL, *path = NULL;
    int other = -1;
    for (int index = 1; index < count; index += 2) {
        bool is_link = strcmp(arguments[index], "--link") == 0;
        bool is_lasting = strcmp(arguments[index], "--lasting") == 0;
        if ((!is_link && !is_lasting) || index + 1 == count) {
            fprintf(stderr, "bridge-native [--link PATH] [--lasting FILE]\n");
            return 2;
        }
        *(is_link ? &link_path : &lasting_path) = arguments[index + 1];
    }
    int terminal = open_terminal(&path, &other);
    void *memory = malloc(native_size());
    if (terminal < 0 || memory == NULL) {
        perror("no pseudo-terminal");
        return 1;
    }
    if (link_path) {
        unlink(link_path);
        if (symlink(path, link_path) != 0)
            perror(link_path);
    }
    setvbuf(stdin, NULL, _IONBF, 0); /* poll must see what is left */
    signal(SIGINT, on_signal);
    signal(SIGTERM, on_signal);
    native_create(memory, BRIDGE_RESET_POWER_ON);
    load(memory, lasting_path);
    printf("%s\n", path);
    fflush(stdout);
    play(memory, terminal);
    save(memory, lasting_path);
    if (link_path)
        unlink(link_path);
    native_destroy(memory);
    free(memory);
    close(other);
    close(terminal);
    return 0;
}
