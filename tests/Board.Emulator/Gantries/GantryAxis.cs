namespace Board.Emulator;

/// <summary>A motor, a carriage that follows it with some play, and an endstop. Places are in steps from the centre of cell 0.</summary>
public sealed class GantryAxis
{
    private readonly int play;
    private readonly int endstopPlace;
    private readonly bool endstopAtMax;
    private int motor;
    private int closesIn = -1; // steps; less than 0: by its place alone
    private (int Least, int Most) frame = (int.MinValue, int.MaxValue);

    /// <param name="start">Where the carriage stands at first.</param>
    /// <param name="endstopPlace">Where the endstop is reached.</param>
    /// <param name="endstopAtMax">Whether it is reached at that place and above, else at that place and below.</param>
    /// <param name="play">Steps that the motor makes after a turn before the carriage follows.</param>
    public GantryAxis(int start, int endstopPlace, bool endstopAtMax, int play)
    {
        (this.endstopPlace, this.endstopAtMax, this.play) = (endstopPlace, endstopAtMax, play);
        motor = Carriage = start;
    }

    public int Carriage { get; private set; }

    /// <summary>Step edges up and down, whether anything moved or not.</summary>
    public long Up { get; private set; }

    public long Down { get; private set; }

    /// <summary>Steps further into the endstop once it was reached: there must be none.</summary>
    public long StepsIntoEndstop { get; private set; }

    /// <summary>A wire that is cut reads as reached.</summary>
    public bool IsWireCut { get; set; }

    /// <summary>An endstop that sticks never reads as reached.</summary>
    public bool IsStuckOpen { get; set; }

    /// <summary>Steps against an end of the frame: there must be none.</summary>
    public long StepsStalled { get; private set; }

    public bool IsReached => closesIn == 0 || IsAtEndstop;

    private bool IsAtEndstop => endstopAtMax ? Carriage >= endstopPlace : Carriage <= endstopPlace;

    public bool ReadsReached => (IsReached && !IsStuckOpen) || IsWireCut;

    public void Step(bool up, bool hasPower)
    {
        (Up, Down) = up ? (Up + 1, Down) : (Up, Down + 1);
        if (ReadsReached && (closesIn == 0 || (IsAtEndstop && up == endstopAtMax)))
            StepsIntoEndstop++;
        if (closesIn > 0)
            closesIn--;
        if (!hasPower)
            return;
        motor += up ? 1 : -1;
        if (motor < frame.Least || motor - play > frame.Most)
        {
            StepsStalled++;
            motor += up ? -1 : 1;
        }
        Carriage = Math.Clamp(Carriage, motor - play, motor);
    }

    /// <summary>Where the carriage can go at all; by default it has no end.</summary>
    public void SetFrame(int least, int most) => frame = (least, most);

    internal void CloseAfter(int steps) => closesIn = steps;

    public Action Save()
    {
        var closing = closesIn;
        var (savedMotor, carriage, up, down, into, stalled) = (motor, Carriage, Up, Down, StepsIntoEndstop, StepsStalled);
        var (isCut, isStuck) = (IsWireCut, IsStuckOpen);
        return () =>
        {
            (motor, Carriage, Up, Down, StepsIntoEndstop, StepsStalled) = (savedMotor, carriage, up, down, into, stalled);
            (IsWireCut, IsStuckOpen, closesIn) = (isCut, isStuck, closing);
        };
    }

    /// <summary>A hand moves the carriage, motor and all.</summary>
    public void Push(int steps)
    {
        motor += steps;
        Carriage += steps;
    }
}
