using System.Text;

namespace Bridge.Jobs.Tests;

public sealed class MachineFileBytesTests
{
    private static readonly string Text = ExampleMachines.Text("wide-plotter.toml");

    [Fact]
    public void A_byte_order_mark_is_accepted()
    {
        byte[] bytes = [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(Text)];

        Assert.Equal("Wide plotter", MachineFile.Parse(bytes, "m.toml").Name);
    }

    [Fact]
    public void Lines_may_end_as_on_any_system() =>
        Assert.Equal("Wide plotter", MachineFileMistakeTests.Parse(Text.ReplaceLineEndings("\r\n")).Name);

    [Fact]
    public void A_byte_that_is_no_UTF_8_is_named_with_its_place()
    {
        byte[] bytes = [.. "format = 1\nname = \"caf"u8, 0xE9, .. "\"\n"u8];

        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => MachineFile.Parse(bytes, "m.toml")).Refusals);

        Assert.Equal("m.toml:2:12", refusal.Place);
        Assert.Contains("0xE9", refusal.Found, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_of_64_KiB_is_read_and_one_byte_more_is_refused()
    {
        var padded = Text + "#" + new string('x', MachineFile.MaxBytes - Encoding.UTF8.GetByteCount(Text) - 1);

        Assert.Equal("Wide plotter", MachineFileMistakeTests.Parse(padded).Name);
        Assert.Contains("65536", Assert.Single(MachineFileMistakeTests.Refusals(padded + "x")).Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_of_64_characters_is_read_and_one_more_is_refused()
    {
        var name = string.Concat(Enumerable.Repeat("🖊", 64));

        Assert.Equal(name, MachineFileMistakeTests.Parse(Text.Replace("Wide plotter", name, StringComparison.Ordinal)).Name);
        Assert.Single(MachineFileMistakeTests.Refusals(Text.Replace("Wide plotter", name + "x", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("no-such-machine.toml")]
    [InlineData("no-such-folder/machine.toml")]
    [InlineData("a\0b")]
    public void A_path_that_leads_nowhere_is_refused(string path) => Assert.Throws<RefusedException>(() => MachineFile.Read(path));

    [Fact]
    public void A_folder_is_refused() => Assert.Throws<RefusedException>(() => MachineFile.Read(ExampleMachines.Folder));
}
