using System.Globalization;
using System.Text;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Exercises of growing difficulty, made from a seed: the same seed and level make the same lesson.</summary>
/// <param name="Seed">The seed, 0 and up.</param>
/// <param name="Level">The level, 1 to 3; null for all three.</param>
public sealed record Lesson(int Seed, int? Level)
{
    private const int MostBytes = 64 * 1024;

    /// <summary>The exercises, in order: five for each of three levels, or ten of one; no two of them of one pattern.</summary>
    public IReadOnlyList<Exercise> Exercises { get; } = Made(Seed, Level);

    /// <summary>Marks typed answers.</summary>
    /// <param name="path">The text: a line for each answer, as in 3: 4,5 5,5; # begins a remark.</param>
    /// <returns>For each exercise what was wrong, "" where it was right, null where nothing was answered.</returns>
    /// <exception cref="RefusedException">A line is no answer, names no exercise, or answers one twice.</exception>
    public IReadOnlyList<string?> Mark(string path) => Mark(InputFile.ReadAll(path, MostBytes), path);

    /// <summary>The same from the text's bytes.</summary>
    /// <exception cref="RefusedException">A line is no answer, names no exercise, or answers one twice.</exception>
    public IReadOnlyList<string?> Mark(ReadOnlySpan<byte> text, string name)
    {
        var marks = new string?[Exercises.Count];
        var line = 0;
        foreach (var written in Encoding.Latin1.GetString(text).Split('\n'))
        {
            line++;
            var words = written.Split('#')[0].Trim();
            if (words.Length == 0)
                continue;
            if (words.Split(':', 2) is not [var number, var answer]
                || !int.TryParse(number.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var exercise)
                || exercise < 1 || exercise > marks.Length)
                throw new RefusedException($"{name}, line {line}", $"\"{MachineFileText.Clean(words)}\"",
                    $"the number of an exercise, 1 to {marks.Length}, a colon, and the answer",
                    "Write it as in 3: 4,5 5,5.");
            if (marks[exercise - 1] is not null)
                throw new RefusedException($"{name}, line {line}", $"a second answer to exercise {exercise}", "one for each", "Take one of the two out.");
            if (answer.Trim().Length > 0)
                marks[exercise - 1] = Exercises[exercise - 1].Wrong(answer) ?? "";
        }
        return marks;
    }

    private static IReadOnlyList<Exercise> Made(int seed, int? level)
    {
        var maker = new ExerciseMaker(new Random(seed));
        IEnumerable<int> levels = level is { } one ? [one, one] : [1, 2, 3];
        return [.. levels.SelectMany(maker.OfLevel)];
    }
}
