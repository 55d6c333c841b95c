using Bridge.Jobs;

namespace Bridge.Layouts.Tests;

/// <summary>The controller in gates against the interpreter: in this process, and by a Verilog simulator of others' making.</summary>
public class ControllerTests
{
    private static readonly Machine Gantry = Examples.Machine("desktop-gantry.toml");

    private const int MostClocks = 4000;

    public static TheoryData<string> Names => ["built-in-4.toml", "relative-lines.toml", "rows-only.toml", "square-fills.toml", "one-byte"];

    [Theory]
    [MemberData(nameof(Names))]
    public void Each_line_is_what_the_layout_says_for_every_opcode(string name)
    {
        var lines = ControlLines.Of(Examples.Layout(name));
        Assert.All(lines.Lines, line => Assert.True(line.Sum.IsLeast, line.Name));
        Assert.All(lines.Lines, line => Assert.All(Enumerable.Range(0, 1 << lines.Bits.Count), opcode =>
            Assert.True(line.Function[opcode] is not { } wanted || wanted == line.Sum.At(opcode), $"{line.Name} {opcode}")));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Each_opcode_with_any_numbers_does_in_gates_what_the_interpreter_does(string name)
    {
        var lines = ControlLines.Of(Examples.Layout(name));
        var net = ControllerNetlist.Build(lines);
        Assert.All(OpcodeJobs(lines), job => Assert.Equal(Expected(lines.Layout, job), new NetlistSimulator(net).Run(job, MostClocks)));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_same_controller_read_from_its_BLIF_file_works_a_job(string name)
    {
        var layout = Examples.Layout(name);
        using var file = new StringWriter();
        BlifWriter.Write(ControllerNetlist.Build(ControlLines.Of(layout)), "test", file);
        var (_, machine, plan) = Examples.Planned("kite.csv");
        var words = LayoutLowering.Lower(layout, plan.Records, machine).Words;
        Assert.Equal([.. Cells(LayoutProof.Of(LayoutImage.Of(layout, words), machine).Decoded, machine.Grid), "done"],
            new Blif(file.ToString()).Run(words, MostClocks));
    }

    [VerilogTheory]
    [MemberData(nameof(Names))]
    public void Each_opcode_drives_the_lines_in_the_Verilog_simulator_too(string name)
    {
        var lines = ControlLines.Of(Examples.Layout(name));
        var told = Verilog.Run(ControllerNetlist.Build(lines), Verilog.LinesBenchOf(lines));
        Assert.Equal(1 << lines.Bits.Count, told.Length);
        for (var opcode = 0; opcode < told.Length; opcode++)
            for (var line = 0; line < lines.Lines.Count; line++)
                Assert.True(lines.Lines[line].Function[opcode] is not { } wanted || (told[opcode][line] == '1') == wanted,
                    $"{lines.Lines[line].Name} {opcode}");
    }

    [VerilogTheory]
    [MemberData(nameof(Names))]
    public void Each_opcode_with_any_numbers_does_in_the_Verilog_simulator_what_the_interpreter_does(string name)
    {
        var lines = ControlLines.Of(Examples.Layout(name));
        var jobs = OpcodeJobs(lines).ToList();
        Assert.Equal(jobs.SelectMany(job => Expected(lines.Layout, job)),
            Verilog.Run(ControllerNetlist.Build(lines), Verilog.BenchOf(lines.Layout, jobs, MostClocks)));
    }

    [VerilogTheory]
    [InlineData("built-in-4.toml", "lighthouse.txt")]
    [InlineData("built-in-4.toml", "kite.csv")]
    [InlineData("built-in-8.toml", "teapot.svg")]
    [InlineData("rows-only.toml", "barn.stl")]
    [InlineData("relative-lines.toml", "lighthouse.txt")]
    [InlineData("relative-lines.toml", "kite.csv")]
    [InlineData("square-fills.toml", "thicket.txt")]
    public void A_whole_job_is_worked_cell_for_cell_in_the_Verilog_simulator(string name, string shape)
    {
        var layout = Examples.Layout(name);
        var (_, machine, plan) = Examples.Planned(shape);
        var words = LayoutLowering.Lower(layout, plan.Records, machine).Words;
        words = words[^1] == 0 ? words : [.. words, 0UL];
        var told = Verilog.Run(ControllerNetlist.Build(ControlLines.Of(layout)), Verilog.BenchOf(layout, [words], 2_000_000));
        Assert.Equal([.. Cells(LayoutProof.Of(LayoutImage.Of(layout, words), machine).Decoded, machine.Grid), "done"], told);
    }

    [Fact]
    public void Lines_of_any_slope_and_repeats_of_them_are_worked_in_gates()
    {
        var layout = Examples.Layout("built-in-4.toml");
        var random = new Random(20);
        var net = ControllerNetlist.Build(ControlLines.Of(layout));
        for (var trial = 0; trial < 200; trial++)
        {
            Record[] records = [.. Enumerable.Range(0, 4)
                .Select(_ => Record.Line((Head)random.Next(2), new Cell(random.Next(16), random.Next(16)), rise: random.Next(4) == 0)),
                Record.Again(RecordWidth.Four, random.Next(1, 5), random.Next(1, 3)), Record.End];
            var image = Image.Of(RecordWidth.Four, records);
            var words = LayoutImage.Parse(layout, image.Bytes.Span, "image").Words;
            Assert.Equal([.. Cells(image, Gantry.Grid), "done"], new NetlistSimulator(net).Run(words, 4000));
        }
    }

    // Each opcode, with numbers of several kinds, behind a record that leaves the corner; only what stays on the grid.
    private static IEnumerable<IReadOnlyList<ulong>> OpcodeJobs(ControlLines lines)
    {
        var random = new Random(4);
        var all = lines.Layout.RecordBytes == 8 ? ulong.MaxValue : (1UL << 8 * lines.Layout.RecordBytes) - 1;
        for (var opcode = 0; opcode < 1 << lines.Bits.Count; opcode++)
            for (var trial = 0; trial < 6; trial++)
            {
                var data = trial == 0 ? 0 : (ulong)random.NextInt64() & (ulong)random.NextInt64() & (trial < 3 ? all : (ulong)random.NextInt64());
                var word = lines.WordOf(opcode) | data & all & ~lines.Opcode;
                ulong[] job = [LayoutLowering.Lower(lines.Layout, [Record.Row(Gantry.Width, Head.A, new Cell(0, 0), 0, 1)], Gantry).Words[0], word, 0];
                var proof = LayoutProof.Of(LayoutImage.Of(lines.Layout, job), Gantry);
                if (proof.Decoded.Count < 100 && proof.Proof.Faults.All(fault => IsNoVerbs(fault) || fault.Rule == JobRule.WorkedTwice))
                    yield return job;
            }
    }

    private static List<string> Expected(Layout layout, IReadOnlyList<ulong> words)
    {
        var proof = LayoutProof.Of(LayoutImage.Of(layout, words), Gantry);
        return [.. Cells(proof.Decoded, Gantry.Grid), proof.Proof.Faults.Any(IsNoVerbs) ? "fault" : "done"];
    }

    private static bool IsNoVerbs(JobFault fault) => fault.Rule is JobRule.VerbNone or JobRule.ReservedBits;

    private static IEnumerable<string> Cells(Image image, Grid grid)
    {
        var interpreter = new Interpreter(image, grid);
        while (interpreter.MoveNext())
            yield return $"{(int)interpreter.Current.Head} {interpreter.Current.Cell.X} {interpreter.Current.Cell.Y} {interpreter.Current.Layer}";
        Assert.Null(interpreter.Fault);
    }
}
