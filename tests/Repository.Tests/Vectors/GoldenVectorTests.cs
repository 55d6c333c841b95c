namespace Repository.Tests;

/// <summary>Golden vectors are worth what the tests make of them.</summary>
public class GoldenVectorTests
{
    [Fact]
    public void Every_file_of_golden_vectors_is_read_by_a_test()
    {
        var tests = Checkout.Under("tests", ".cs").Select(Checkout.Read).ToList();
        var files = Checkout.Files.Where(file => file.StartsWith("firmware-protocol/vectors/", StringComparison.Ordinal)
            && !file.EndsWith(".md", StringComparison.Ordinal));
        Assert.NotEmpty(files);
        Findings.AssertNone(files.Where(file => !tests.Any(test => Names(test, file))));
    }

    private static bool Names(string test, string file)
    {
        var parts = file.Split('/');
        return test.Contains($"\"{parts[^1]}\"", StringComparison.Ordinal) || test.Contains($"\"{parts[^2]}/{parts[^1]}\"", StringComparison.Ordinal);
    }
}
