namespace Bridge.Jobs.Tests;

public sealed class InputFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("bridge-jobs-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData(0, 0)]
    [InlineData(3, 3)]
    [InlineData(3, 4)]
    public void A_file_within_the_bound_is_read_whole(int length, long most)
    {
        var bytes = Enumerable.Range(1, length).Select(value => (byte)value).ToArray();
        Assert.Equal(bytes, InputFile.ReadAll(Write(bytes), most));
    }

    [Fact]
    public void A_file_beyond_the_bound_is_refused_with_both_sizes() =>
        AssertRefused(Write([1, 2, 3, 4]), "4 bytes", "up to 3 bytes", "Is this the right file?");

    [Fact]
    public void A_folder_is_refused() => AssertRefused(_folder, "a folder", "a file", "Name the file itself.");

    [Theory]
    [InlineData("missing.job")]
    [InlineData("missing/file.job")]
    public void What_is_not_there_is_refused(string name) =>
        AssertRefused(Path.Combine(_folder, name), "no such file", "a file that is there", "Check the name and the folder.");

    [Fact]
    public void A_name_that_no_file_can_have_is_refused()
    {
        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => InputFile.ReadAll("a\0b", 3)).Refusals);
        Assert.Equal(("a file that can be read", "Check the name and its permissions."), (refusal.Allowed, refusal.Action));
        Assert.NotEmpty(refusal.Found);
    }

    private static void AssertRefused(string path, string found, string allowed, string action)
    {
        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => InputFile.ReadAll(path, 3)).Refusals);
        Assert.Equal((path, found, allowed, action), (refusal.Place, refusal.Found, refusal.Allowed, refusal.Action));
    }

    private string Write(byte[] bytes)
    {
        var path = Path.Combine(_folder, "file");
        File.WriteAllBytes(path, bytes);
        return path;
    }
}
