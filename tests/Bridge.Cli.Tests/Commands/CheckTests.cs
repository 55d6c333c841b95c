using System.Text.Json;

namespace Bridge.Cli.Tests;

public sealed class CheckTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_job_is_proved_against_machine_and_shape()
    {
        var ran = await InProcess.Run("check", await _folder.KiteJob(), "--machine", _folder.Plotter, "--shape", _folder.Kite);
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Proved against the machine and the shape.", ran.Output);
    }

    [Fact]
    public async Task A_cell_too_few_is_a_problem_with_its_place()
    {
        var shape = _folder.Write("two.txt", "AB\n");
        await InProcess.Run("plan", _folder.Write("one.txt", "A.\n"), "--machine", _folder.Plotter, "--out", _folder.In("one.job"));
        var ran = await InProcess.Run("check", _folder.In("one.job"), "--machine", _folder.Plotter, "--shape", shape);
        Assert.Equal(1, ran.ExitCode);
        Assert.Contains("Problem: layer 0, cell (1, 0): found not worked; allowed: worked by head b", ran.Output);
        Assert.Contains("1 problem.", ran.Output);
    }

    [Theory]
    [InlineData(256, 0)]
    [InlineData(257, 1)]
    public async Task A_store_dump_has_no_more_bytes_than_the_store(int bytes, int code)
    {
        var dump = new byte[bytes];
        Convert.FromHexString("401204").CopyTo(dump, 0);
        var ran = await InProcess.Run("check", _folder.Write("dump", dump), "--raw", "--machine", _folder.Plotter);
        Assert.Equal(code, ran.ExitCode);
        Assert.Equal(code == 1, ran.Error.Contains("found 257 bytes; allowed: up to 256 bytes", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_json_has_the_facts()
    {
        var image = _folder.Write("image", Convert.FromHexString("401204" + "500001" + "000000")); // five cells by a, two by b
        var (code, json) = await Json("check", image, "--raw", "--machine", _folder.Plotter);
        Assert.Equal(0, code);
        Assert.Equal((3, 9, 256), (json.GetProperty("records").GetInt32(), json.GetProperty("bytes").GetInt32(), json.GetProperty("store_bytes").GetInt32()));
        Assert.Equal((5, 2), (json.GetProperty("worked").GetProperty("a").GetInt32(), json.GetProperty("worked").GetProperty("b").GetInt32()));
        Assert.InRange(json.GetProperty("seconds").GetDouble(), 0.1, 60);
        Assert.InRange(json.GetProperty("travel_mm").GetDouble(), 1, 1000);
        Assert.Empty(json.GetProperty("problems").EnumerateArray());
    }

    [Fact]
    public async Task The_json_has_each_problem_with_its_record()
    {
        var image = _folder.Write("image", Convert.FromHexString("401204" + "40F00F" + "000000")); // the second leaves the grid
        var (code, json) = await Json("check", image, "--raw", "--machine", _folder.Plotter);
        Assert.Equal(1, code);
        var problem = json.GetProperty("problems")[0];
        Assert.Equal(1, problem.GetProperty("record").GetInt32());
        Assert.All(new[] { "rule", "place", "found", "allowed", "action", "text" },
            key => Assert.False(string.IsNullOrEmpty(problem.GetProperty(key).GetString())));
    }

    [Theory]
    [InlineData("missing.job")]
    [InlineData("a \"quoted\"\n[name].job")]
    [InlineData("日本.job")]
    [InlineData("")]
    public async Task The_json_is_json_when_a_file_cannot_be_read(string name)
    {
        var (code, json) = await Json("check", _folder.In(name), "--machine", _folder.Plotter);
        Assert.Equal(1, code);
        Assert.Contains(name, json.GetProperty("problems")[0].GetProperty("place").GetString());
        Assert.Equal(JsonValueKind.Null, json.GetProperty("records").ValueKind);
        (code, json) = await Json("check", _folder.In(name), "--machine", _folder.In(name), "--shape", _folder.In(name));
        Assert.Equal((1, 1), (code, json.GetProperty("problems").GetArrayLength()));
    }

    [Fact]
    public async Task A_job_for_another_machine_is_not_proved()
    {
        var (code, json) = await Json(
            "check", await _folder.KiteJob(), "--machine", WorkFolder.Example("machines", "wide-plotter.toml"), "--shape", _folder.Kite);
        Assert.Equal(1, code);
        Assert.Contains(json.GetProperty("problems").EnumerateArray(), problem => problem.GetProperty("rule").GetString() == "OtherMachine");
    }

    private static async Task<(int Code, JsonElement Json)> Json(params string[] args)
    {
        var ran = await InProcess.Run([.. args, "--json"]);
        Assert.Empty(ran.Error);
        return (ran.ExitCode, JsonDocument.Parse(ran.Output).RootElement);
    }
}
