namespace Bridge.Motion;

/// <summary>
/// One thing that a machine does on its way through a record: a straight move, a time to stand still, or cells worked.
/// </summary>
/// <param name="Kind">What it is.</param>
/// <param name="From">Where the carriage starts.</param>
/// <param name="To">Where the carriage ends.</param>
/// <param name="Profile">The move's speed; of one cell's move where dots are worked; the default where nothing moves.</param>
/// <param name="StandSeconds">Time to stand still: after each cell where dots are worked, else once.</param>
/// <param name="Cells">Cells worked. The last is at the end of the move, the others at equal distances before it.</param>
/// <param name="SpacingMm">Distance between worked cells along the way, in mm; 0 where at most one is worked.</param>
public readonly record struct Act(
    ActKind Kind, Place From, Place To, Trapezoid Profile, double StandSeconds, int Cells, double SpacingMm)
{
    /// <summary>The play that each axis takes up, with its direction, in mm; zero in any other act.</summary>
    public Place Play { get; init; }

    /// <summary>How long it takes.</summary>
    public double Seconds => Kind == ActKind.WorkDots ? Cells * SecondsOfDot : Profile.Seconds + StandSeconds;

    /// <summary>The way of the carriage in mm; taking up play is none.</summary>
    public double TravelMm => Kind switch
    {
        ActKind.WorkDots => Cells * Profile.DistanceMm,
        ActKind.TakeUp => 0,
        _ => Profile.DistanceMm,
    };

    /// <summary>Whether cells are worked.</summary>
    public bool Works => Kind is ActKind.WorkMove or ActKind.WorkDots;

    internal double SecondsOfDot => Profile.Seconds + StandSeconds;

    /// <summary>
    /// When a worked cell, 1 up to all of them, is done: seconds since the start. A dot is done when its time is over.
    /// </summary>
    public double SecondsAtCell(int cell) => Kind == ActKind.WorkDots
        ? cell * SecondsOfDot
        : Profile.SecondsAt(Profile.DistanceMm - (Cells - cell) * SpacingMm);

    /// <summary>Where the carriage is some seconds after the start.</summary>
    public Place PlaceAt(double seconds)
    {
        if (From == To || seconds >= Seconds)
            return To;
        return Place.Between(From, To, Kind == ActKind.WorkDots ? PartOfDots(seconds) : Profile.PositionAt(seconds) / Profile.DistanceMm);
    }

    /// <summary>When it has come to a part, 0 to 1, of its straight way, in seconds since the start.</summary>
    public double SecondsAtPart(double part)
    {
        if (Kind != ActKind.WorkDots)
            return Profile.SecondsAt(part * Profile.DistanceMm);
        var done = Math.Min(Cells - 1, Math.Floor(part * Cells));
        return done * SecondsOfDot + Profile.SecondsAt((part * Cells - done) * Profile.DistanceMm);
    }

    /// <summary>A time to stand still at a place.</summary>
    public static Act Stand(ActKind kind, Place at, double seconds) => new(kind, at, at, default, seconds, 0, 0);

    /// <summary>A move that works no cell.</summary>
    public static Act Move(ActKind kind, Place from, Place to, Trapezoid profile) => new(kind, from, to, profile, 0, 0, 0);

    private double PartOfDots(double seconds)
    {
        var done = Math.Floor(seconds / SecondsOfDot);
        var part = Profile.PositionAt(seconds - done * SecondsOfDot) / Profile.DistanceMm;
        return Math.Min(1, (done + part) / Cells);
    }
}
