/*
 * The protocol of SPEC.md, sections 3 and 5, small enough to look at every order of events: a host that streams records over a line that loses,
 * damages and doubles frames, a board that queues and executes them, STOP, and a restart of either side.
 *
 * Smaller than in the real thing: numbers go around after 8 (256), a window of WINDOW (10), a queue of 2 (16), a run of RECORDS records, one
 * record in a message. Left out: what frames look like (a damaged one is a lost one), how long anything takes (a time-out may come at
 * any moment, so the gap bit, which only hastens it, is left out too), Clear and referencing.
 *
 * Claims: the assertions (each record worked once and in order, nothing worked that the host may not know of, no session set going by an
 * earlier one's word), no deadlock, and by name the four at the end. `check` proves them, and shows that variants with a defect, by -D, fail.
 */
#ifndef RECORDS
#define RECORDS 4
#endif
/* With LOST, of any LOST + 1 sendings of one message, and of any LOST + 1 frames of the board, the line lets one through. Without, it may lose all. */
#ifdef LOST
#define MAY_LOSE(lost) lost < LOST -> lost++
#define LETS_THROUGH(lost) lost = 0
#else
#define MAY_LOSE(lost) skip
#define LETS_THROUGH(lost) skip
#endif
#ifndef STOPS
#define STOPS 1
#endif
#ifndef HOST_RESTARTS
#define HOST_RESTARTS 1
#endif
#ifndef BOARD_RESTARTS
#define BOARD_RESTARTS 1
#endif
#define NUMBERS 8
#ifndef WINDOW
#define WINDOW 3
#endif
#define QUEUE 2
#ifndef LINE
#define LINE 2
#endif
#define GO 15 /* the message that sets the machine going: Start, or Unhold */

mtype = { HELLO, BEAT, MESSAGE, WELCOME, STATUS, IDLE, RUNNING, HELD, ABORTED };

chan to_board = [LINE] of { mtype, byte, byte, byte };                        /* kind, session, number, record */
chan to_host = [LINE] of { mtype, byte, byte, byte, byte, byte, mtype };      /* kind, session, expected, taken, limit, done, state; IDLE: no run */
byte lost_to_board[NUMBERS + 1], lost_to_host, lost_stops;

#define IS_KNOWN (is_open && board_session == session)
/* For progress: a host hears what has arrived before it speaks, and gives up once nothing is on its way. For safety: any order at all. */
#ifdef LOST
#define IS_ANSWERED IS_KNOWN /* else it would never have to give up */
#define MAY_SEND empty(to_host)
#define NOTHING_ON_ITS_WAY empty(to_board)
#else
#define IS_ANSWERED true
#define MAY_SEND true
#define NOTHING_ON_ITS_WAY true
#endif

/* The board's. */
mtype state = IDLE;
bool is_open, has_run = true;
byte board_session, expected, taken, limit = QUEUE, queue_count, go_session;
byte queue[QUEUE];

/* The gantry's: what was really done. */
byte worked;

/* What was said and what came of it, for the claims. */
byte goes_said, goes_done, sent_at_most;
#ifdef STOP_ONCE
byte stops_said;
#endif
bool stop_wanted, stop_arrived, has_ended;

#ifdef DONE_BEFORE_EXECUTED
#define CLAIMED taken
#else
#define CLAIMED (has_run -> worked : 0)
#endif

/* The line, as a sender meets it. A frame that finds it full is lost too. */
inline put_to_board(kind, session, number, record, place) {
    if
    :: full(to_board)
    :: nfull(to_board) -> to_board!kind,session,number,record; LETS_THROUGH(lost_to_board[place])
    :: nfull(to_board) -> to_board!kind,session,number,record; LETS_THROUGH(lost_to_board[place]);
        if
        :: nfull(to_board) -> to_board!kind,session,number,record
        :: full(to_board)
        fi
    :: MAY_LOSE(lost_to_board[place])
    fi
}

inline put_to_host(kind, session, shown) {
    if
    :: full(to_host)
    :: nfull(to_host) -> to_host!kind,session,expected,taken,limit,CLAIMED,shown; LETS_THROUGH(lost_to_host)
    :: nfull(to_host) -> to_host!kind,session,expected,taken,limit,CLAIMED,shown; LETS_THROUGH(lost_to_host);
        if
        :: nfull(to_host) -> to_host!kind,session,expected,taken,limit,CLAIMED,shown
        :: full(to_host)
        fi
    :: MAY_LOSE(lost_to_host)
    fi
}

inline tell() {
    if
    :: !is_open
    :: is_open && (has_run || state == ABORTED) -> put_to_host(STATUS, board_session, state)
    fi
}

/* Past every queue; the line may damage it. */
inline put_stop() {
#ifdef STOP_ONCE
    stops_said = (stops_said < 2 -> stops_said + 1 : 2);
#endif
    if
#ifdef STOP_ONCE
    :: stops_said > 1
#endif
    :: LETS_THROUGH(lost_stops);
        stop_arrived = true;
        state = ABORTED;
        queue_count = 0; queue[0] = 0; queue[1] = 0
    :: MAY_LOSE(lost_stops)
    fi
}

inline grant() {
#ifdef CREDIT_TOO_MUCH
    limit = taken + QUEUE + 1 - queue_count
#else
#ifdef CREDIT_LEAK
    skip
#else
    limit = taken + QUEUE - queue_count
#endif
#endif
}

#ifdef GOES_FROM_ABORTED
#define MAY_GO (state == IDLE || state == HELD || state == ABORTED)
#else
#define MAY_GO (state == IDLE || state == HELD)
#endif
#ifdef NO_INDEX
#define IS_NEXT_RECORD true
#else
#define IS_NEXT_RECORD (record == taken)
#endif
#define MAY_TAKE (has_run && state != ABORTED && IS_NEXT_RECORD && queue_count < QUEUE)

/* A message whose number is the next one: executed now, or refused. */
inline take() {
    if
    :: record == GO && MAY_GO -> state = RUNNING; go_session = session; goes_done++; assert(goes_done <= goes_said)
    :: record == GO && !MAY_GO
    :: record != GO && MAY_TAKE ->
        queue[queue_count] = record;
        queue_count++;
        taken++;
        grant()
    :: record != GO && !MAY_TAKE
    fi
}

active proctype board() {
    mtype kind;
    byte session, number, record;
end:
    do
    :: atomic { !has_ended && nempty(to_board) ->
        to_board?kind,session,number,record;
        if
        :: kind == HELLO ->
            if
            :: is_open && session == board_session
            :: !(is_open && session == board_session) -> is_open = true; board_session = session; expected = 0;
#ifndef GOES_ON_BY_ITSELF
                if
                :: state == RUNNING -> state = HELD
                :: state != RUNNING
                fi
#endif
            fi;
            put_to_host(WELCOME, session, IDLE)
        :: kind != HELLO && is_open && session == board_session ->
            if
            :: kind == BEAT
#ifdef NO_SEQUENCE
            :: kind == MESSAGE -> expected = (number + 1) % NUMBERS; take()
#else
            :: kind == MESSAGE && number == expected -> expected = (expected + 1) % NUMBERS; take()
            :: kind == MESSAGE && number != expected
#endif
            fi;
            tell()
        :: kind != HELLO && !(is_open && session == board_session)
        fi;
        kind = 0; session = 0; number = 0; record = 0
        }
    od
}

/* Executes what is queued, and tells of it. */
active proctype gantry() {
end:
    do
    :: atomic { !has_ended && state == RUNNING && queue_count > 0 ->
        assert(!stop_arrived);
        assert(!is_open || go_session == board_session);
        assert(queue[0] == worked);
        worked++;
        queue_count--;
        queue[0] = queue[1];
        queue[1] = 0;
        grant();
        tell()
        }
    od
}

inline begin_session() {
    session++;
    opened = false; heard = false; gone = false;
    base = 0; next = 0; in_flight = 0; may_send = 0; sent = 0; known = 0;
    slot[0] = 0; slot[1] = 0; slot[2] = 0; slot[3] = 0; slot[4] = 0; slot[5] = 0; slot[6] = 0; slot[7] = 0
}

active proctype host() {
    byte session = 1, sent, known, may_send, base, next, in_flight, index;
    byte slot[NUMBERS];
    mtype kind, told_state;
    byte from, acknowledged, told_taken, told_limit, told_done, restarts;
    bool opened, heard, gone, aborting;

    do
    /* A frame of the board arrives. */
    :: atomic { !has_ended && nempty(to_host) ->
        to_host?kind,from,acknowledged,told_taken,told_limit,told_done,told_state;
        index = (acknowledged + NUMBERS - base) % NUMBERS;
        if
        :: from != session || (kind == STATUS && (!opened || index > in_flight))
        :: from == session && kind == WELCOME -> opened = true
        :: from == session && kind == STATUS && opened && index <= in_flight ->
            do
            :: base != acknowledged -> slot[base] = 0; base = (base + 1) % NUMBERS
            :: base == acknowledged -> break
            od;
            in_flight = in_flight - index;
            if
            :: told_state == ABORTED ->
                assert(known <= worked && worked <= sent_at_most); /* what it knows is done, and nothing beyond what it has sent */
                has_ended = true
            :: told_state != ABORTED ->
                known = (told_done > known -> told_done : known);
                assert(known <= worked);
                may_send = (told_limit > may_send -> told_limit : may_send);
                if
                :: !heard -> heard = true; sent = told_taken
                :: heard -> assert(in_flight > 0 || told_taken >= sent) /* what it has heard it has taken */
                fi;
                if
                :: known == RECORDS && !aborting -> has_ended = true
                :: !(known == RECORDS && !aborting)
                fi
            fi
        fi;
        kind = 0; from = 0; acknowledged = 0; index = 0;
        told_taken = 0; told_limit = 0; told_done = 0; told_state = 0
        }
    /* Hello, until it is answered. */
    :: atomic { !has_ended && MAY_SEND && !opened ->
        put_to_board(HELLO, session, 0, 0, NUMBERS);
        if
        :: aborting -> put_stop()
        :: !aborting
        fi
        }
    /* Beats, while nothing else can be said; and STOP again and again. */
    :: atomic { !has_ended && MAY_SEND && opened && in_flight == 0 && IS_ANSWERED && (aborting || !heard || (gone && (sent == RECORDS || sent >= may_send))) ->
        put_to_board(BEAT, session, next, 0, NUMBERS);
        if
        :: aborting -> put_stop()
        :: !aborting
        fi
        }
    /* A session begins with the word to go; then come the records. */
    :: atomic { !has_ended && MAY_SEND && heard && !aborting && !gone ->
        gone = true;
        goes_said++;
        slot[0] = GO;
        in_flight = 1;
        next = 1;
        put_to_board(MESSAGE, session, 0, GO, 0)
        }
    :: atomic { !has_ended && MAY_SEND && gone && !aborting && in_flight < WINDOW && sent < RECORDS && sent < may_send ->
        slot[next] = sent;
        index = next;
        next = (next + 1) % NUMBERS;
        in_flight++;
        sent++;
        sent_at_most = (sent > sent_at_most -> sent : sent_at_most);
        put_to_board(MESSAGE, session, index, slot[index], index);
        index = 0
        }
    /* A time-out, at any moment: all in flight again, oldest first. */
    :: atomic { !has_ended && MAY_SEND && opened && !aborting && in_flight > 0 && IS_ANSWERED ->
        index = 0;
        do
        :: index < in_flight ->
            put_to_board(MESSAGE, session, (base + index) % NUMBERS, slot[(base + index) % NUMBERS], (base + index) % NUMBERS);
            index++
        :: index == in_flight -> break
        od;
        index = 0
        }
    /* A board that restarted knows nothing of the session: after some time-outs in vain the host opens another one. */
    :: atomic { !has_ended && MAY_SEND && NOTHING_ON_ITS_WAY && opened && !IS_KNOWN -> begin_session() }
    /* The host's program dies, or gives the line up, and another one goes on. */
    :: atomic { !has_ended && restarts < HOST_RESTARTS && !aborting ->
        restarts++;
        begin_session()
        }
    /* Somebody wants the machine stopped at once: in a session of its own. */
    :: atomic { !has_ended && stop_wanted && !aborting ->
        aborting = true;
        begin_session();
        put_stop()
        }
    :: has_ended -> break
    od
}

/* Somebody wants a stop, once, at any moment, or never. The board restarts, at any moment, or never. */
active proctype trouble() {
    byte resets;
end:
    do
    :: atomic { STOPS > 0 && !stop_wanted && !has_ended -> stop_wanted = true }
    :: atomic { resets < BOARD_RESTARTS && !has_ended ->
        resets++;
        state = ABORTED; is_open = false; has_run = false;
        board_session = 0; expected = 0; taken = 0; limit = 0; queue_count = 0; queue[0] = 0; queue[1] = 0
        }
#ifdef LOST
    :: STOPS + BOARD_RESTARTS > 0 -> break /* what may happen need not: fairness would have it happen */
#endif
    od
}

ltl ends { <> has_ended }
ltl completes { <> (has_ended && worked == RECORDS) }
ltl stops { [] (stop_wanted -> <> (state == ABORTED || (has_ended && worked == RECORDS))) } /* or all was done by then */
ltl stays { [] (stop_arrived -> [] (state == ABORTED)) }
