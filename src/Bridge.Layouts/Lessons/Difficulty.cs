namespace Bridge.Layouts;

/// <summary>How hard an exercise is: points for each thing that makes it harder, by the rules of LESSONS.md.</summary>
public sealed class Difficulty
{
    /// <summary>The hardest level: three stars.</summary>
    public const int HighestLevel = 3;

    private Difficulty(IReadOnlyList<(int Points, string Reason)> reasons) => Reasons = reasons;

    /// <summary>What makes it harder, each with its points, 1 and up.</summary>
    public IReadOnlyList<(int Points, string Reason)> Reasons { get; }

    /// <summary>All points, 0 and up.</summary>
    public int Points => Reasons.Sum(reason => reason.Points);

    /// <summary>Its stars: one up to 1 point, two for 2 or 3, three for 4 and more.</summary>
    public int Level => Points switch { <= 1 => 1, <= 3 => 2, _ => HighestLevel };

    /// <summary>The sum of some reasons; one of 0 points is none.</summary>
    internal static Difficulty Of(params IEnumerable<(int Points, string Reason)> reasons) => new([.. reasons.Where(reason => reason.Points > 0)]);

    /// <summary>The points and what they are for, in words.</summary>
    public override string ToString() => Reasons.Count == 0 ? "0 points"
        : $"{Points} {(Points == 1 ? "point" : "points")}: {string.Join(", ", Reasons.Select(reason => $"{reason.Reason} ({reason.Points})"))}";
}
