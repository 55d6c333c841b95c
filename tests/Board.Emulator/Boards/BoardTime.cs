namespace Board.Emulator;

/// <summary>The time of an emulated chip: it passes as the chip runs, and only then.</summary>
public sealed class BoardTime(AvrChip chip) : TimeProvider
{
    public override long TimestampFrequency => AvrChip.FrequencyHz;

    public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

    public override long GetTimestamp() => (long)chip.Cycle;

    /// <summary>Its beginning is 2000-01-01 in UTC.</summary>
    public override DateTimeOffset GetUtcNow() => new DateTimeOffset(2000, 1, 1, 0, 0, 0, TimeSpan.Zero) + GetElapsedTime(0);
}
