using System.Text.RegularExpressions;

namespace Repository.Tests;

/// <summary>The files speak of the project alone, and work on any machine.</summary>
public class WordTests
{
    /// <summary>Hosts that serve packages, and folders of one person's machine. Each is in two pieces, so that this file does not hold it.</summary>
    private static readonly Regex Foreign = new(string.Join('|',
        @"nuget" + @"\.org", "npmjs" + @"\.(?:org|com)", @"pypi" + @"\.org", @"crates" + @"\.io", "proxy.golang" + @"\.org", "deb.debian" + @"\.org",
        @"(?<![\w.)}/])/(?:work" + @"|home" + @"|root" + @"|Users" + @")/\w", @"[A-Za-z]:\\" + "Users"));

    [Fact]
    public void No_file_names_the_host_of_a_package_registry_or_a_folder_of_one_machine()
    {
        var found = Checkout.Files.Where(file => !IsBinary(file))
            .SelectMany(file => Foreign.Matches(Checkout.Read(file)).Select(match => $"{file}: {match.Value}"));
        Findings.AssertNone(found);
    }

    private static bool IsBinary(string file)
    {
        using var stream = File.OpenRead(Checkout.At(file));
        var start = new byte[4096];
        return start.AsSpan(0, stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false)).Contains((byte)0);
    }
}
