using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>A folder that a command fills with pictures.</summary>
internal static class PictureFolder
{
    /// <summary>Has it filled, and tells with how many.</summary>
    /// <param name="report">Where it is told.</param>
    /// <param name="option">The option that named it.</param>
    /// <param name="folder">The folder; it is made where it is not there.</param>
    /// <param name="draw">Draws into it, and gives how many.</param>
    /// <exception cref="RefusedException">It cannot be written, or lies in the folder of a run.</exception>
    public static void Fill(Report report, string option, string folder, Func<int> draw)
    {
        try
        {
            if (RunFolder.IsRecord(Path.Combine(RealPath.Of(folder), "picture")))
                throw new RefusedException($"{option} {folder}", "a place in the folder of a run", "a folder outside it",
                    "Choose another folder: what a run left stays as it is.");
            report.Line($"{Counted.Of(draw(), "picture")}: {folder}");
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new RefusedException($"{option} {folder}", File.Exists(folder) ? "a file" : error.Message.TrimEnd('.'),
                "a folder that can be written", "Choose another one.");
        }
    }
}
