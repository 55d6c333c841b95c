namespace Bridge.Cli;

/// <summary>Where a path leads when every link on its way is followed, so that two names of one file are seen to be one.</summary>
internal static class RealPath
{
    /// <summary>Most links that are followed one after another, as many as Linux follows (path_resolution(7)).</summary>
    private const int MostLinks = 40;

    private static readonly StringComparison Comparison =
        OperatingSystem.IsLinux() ? StringComparison.Ordinal : StringComparison.OrdinalIgnoreCase;

    /// <summary>The full path behind all links; what is not there yet stays as it is named.</summary>
    /// <exception cref="IOException">The links go in a circle.</exception>
    public static string Of(string path) => Of(Path.GetFullPath(path), MostLinks);

    /// <summary>Whether two real paths are one.</summary>
    public static bool Same(string left, string right) => string.Equals(left, right, Comparison);

    private static string Of(string path, int links)
    {
        if (Path.GetDirectoryName(path) is not { } folder)
            return path;
        var whole = Path.Combine(Of(folder, links), Path.GetFileName(path));
        if (new FileInfo(whole).LinkTarget is not { } target)
            return whole;
        return links > 0
            ? Of(Path.GetFullPath(target, Path.GetDirectoryName(whole)!), links - 1)
            : throw new IOException("The links go in a circle.");
    }
}
