namespace Repository.Tests;

/// <summary>The files of the repository, without what a build or a run leaves: the folders that .gitignore names.</summary>
internal static class Checkout
{
    private static readonly HashSet<string> Left =
        [".git", .. File.ReadLines(At(".gitignore")).Where(line => line.EndsWith('/')).Select(line => line.TrimEnd('/'))];

    /// <summary>Every file by its path from the top, with `/` between folders.</summary>
    public static IReadOnlyList<string> Files { get; } = [.. FilesIn(new DirectoryInfo(Vectors.Root)).Order(StringComparer.Ordinal)];

    /// <summary>The names at the top, files and folders.</summary>
    public static IEnumerable<string> Top => new DirectoryInfo(Vectors.Root).EnumerateFileSystemInfos()
        .Select(entry => entry.Name).Where(name => !Left.Contains(name));

    public static string At(string path) => Path.Combine(Vectors.Root, path);

    public static string Read(string path) => File.ReadAllText(At(path));

    public static string[] Lines(string path) => File.ReadAllLines(At(path));

    /// <summary>Files below a folder with one of the extensions.</summary>
    public static IEnumerable<string> Under(string folder, params string[] extensions) =>
        Files.Where(file => file.StartsWith(folder + "/", StringComparison.Ordinal) && extensions.Contains(Path.GetExtension(file)));

    /// <summary>The names of the folders in a folder that hold a project, for instance Bridge.Jobs.</summary>
    public static IEnumerable<string> Projects(string folder) => Under(folder, ".csproj").Select(file => Path.GetFileNameWithoutExtension(file));

    private static IEnumerable<string> FilesIn(DirectoryInfo folder) => folder.EnumerateDirectories()
        .Where(inner => !Left.Contains(inner.Name)).SelectMany(FilesIn)
        .Concat(folder.EnumerateFiles().Where(file => !Left.Contains(file.Name))
            .Select(file => Path.GetRelativePath(Vectors.Root, file.FullName).Replace('\\', '/')));
}
