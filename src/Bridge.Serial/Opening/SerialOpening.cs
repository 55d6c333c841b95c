namespace Bridge.Serial;

/// <summary>What came of opening a port: a line, or a refusal in words.</summary>
public abstract record SerialOpening
{
    private SerialOpening()
    {
    }

    /// <summary>The port is open.</summary>
    /// <param name="Line">The line, which the caller disposes of.</param>
    public sealed record Opened(SerialLine Line) : SerialOpening;

    /// <summary>The port could not be opened, and nothing is held.</summary>
    /// <param name="Because">Why, in plain words.</param>
    /// <param name="Action">What a person can do about it.</param>
    /// <param name="MayPass">True if a later try may succeed: the device is not there yet, or another holds the port.</param>
    public sealed record Refused(string Because, string Action, bool MayPass) : SerialOpening
    {
        /// <summary>The whole in one line.</summary>
        public override string ToString() => $"{Because} {Action}";
    }
}
