namespace Repository.Tests;

/// <summary>Code is short, narrow and finished.</summary>
public class CodeStyleTests
{
    private const int MostLines = 400;
    private const int MostColumns = 160;

    private static readonly string[] Unfinished = ["TO" + "DO", "FIX" + "ME", "XX" + "X", "NotImplemented" + "Exception"];
    private static readonly string[] Clocks = ["DateTime." + "Now", "DateTime." + "UtcNow", "DateTimeOffset." + "Now", "Thread." + "Sleep("];

    private static IEnumerable<string> Code => Checkout.Files.Where(file => Path.GetExtension(file) is ".cs" or ".c" or ".h" or ".js" or ".css");

    private static IEnumerable<string> CSharp => Code.Where(file => Path.GetExtension(file) == ".cs");

    [Fact]
    public void No_file_of_code_is_longer_than_400_lines() =>
        Findings.AssertNone(Code.Where(file => Checkout.Lines(file).Length > MostLines));

    [Fact]
    public void No_line_of_code_is_wider_than_160_columns() =>
        Findings.AssertNone(Code.SelectMany(file => Places(file, line => line.Length > MostColumns)));

    [Fact]
    public void No_file_of_CSharp_holds_a_tab() =>
        Findings.AssertNone(CSharp.SelectMany(file => Places(file, line => line.Contains('\t'))));

    [Fact]
    public void No_code_of_the_product_is_left_unfinished()
    {
        var product = Code.Where(file => file.StartsWith("src/", StringComparison.Ordinal) || file.StartsWith("firmware-protocol/", StringComparison.Ordinal));
        Findings.AssertNone(product.SelectMany(file => Places(file, line => Unfinished.Any(word => line.Contains(word, StringComparison.Ordinal)))));
    }

    [Fact]
    public void No_CSharp_outside_the_bench_asks_the_wall_clock()
    {
        var timed = CSharp.Where(file => !file.StartsWith("bench/", StringComparison.Ordinal));
        Findings.AssertNone(timed.SelectMany(file => Places(file, line => Clocks.Any(word => line.Contains(word, StringComparison.Ordinal)))));
    }

    private static IEnumerable<string> Places(string file, Func<string, bool> isWrong) =>
        Checkout.Lines(file).Select((line, index) => (line, Place: $"{file}:{index + 1}")).Where(at => isWrong(at.line)).Select(at => at.Place);
}
