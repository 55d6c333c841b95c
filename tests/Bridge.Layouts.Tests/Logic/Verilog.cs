using System.Diagnostics;
using System.Text;

namespace Bridge.Layouts.Tests;

/// <summary>Debian's Icarus Verilog, an IEEE 1364 simulator of others' making.</summary>
internal static class Verilog
{
    /// <summary>Why there is none here; null where there is one.</summary>
    public static string? IsMissingBecause { get; } = IsInPath("iverilog") && IsInPath("vvp") ? null
        : "The netlists are simulated by iverilog, a package of Debian's.";

    /// <summary>Compiles a netlist with a test bench, runs it, and gives the lines that it prints.</summary>
    public static string[] Run(Netlist net, string bench)
    {
        var folder = Directory.CreateTempSubdirectory("bridge-verilog-").FullName;
        try
        {
            using (var file = new StreamWriter(Path.Combine(folder, "controller.v")))
                VerilogWriter.Write(net, "test", file);
            File.WriteAllText(Path.Combine(folder, "bench.v"), bench);
            Start(folder, "iverilog", "-g2001", "-Wall", "-o", "bench.vvp", "controller.v", "bench.v");
            return Start(folder, "vvp", "-n", "bench.vvp").Split('\n', StringSplitOptions.RemoveEmptyEntries);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>A bench that runs jobs one after the other and prints each cell as "head x y layer", then done, fault or late.</summary>
    public static string BenchOf(Layout layout, IReadOnlyList<IReadOnlyList<ulong>> jobs, int clocks)
    {
        var (bits, most) = (8 * layout.RecordBytes, jobs.Max(job => job.Count));
        var text = new StringBuilder($$"""
            module bench;
              reg clock, reset; reg [{{bits - 1}}:0] store [0:{{most - 1}}];
              wire [15:0] address; wire [11:0] layer;
              wire [{{BitsOf(layout.PositionsX) - 1}}:0] x; wire [{{BitsOf(layout.PositionsY) - 1}}:0] y;
              wire head, work, done, fault;
              integer clocks;
              controller c (.clock(clock), .reset(reset), .go_on(1'b1), .record(store[address]), .address(address), .x(x), .y(y), .layer(layer),
                .head(head), .work(work), .done(done), .fault(fault));
              task run;
                begin
                  reset = 1; #1 clock = 1; #1 clock = 0; reset = 0; clocks = 0;
                  #1;
                  while (!done && !fault && clocks < {{clocks}}) begin
                    if (work) $display("%0d %0d %0d %0d", head, x, y, layer);
                    #1 clock = 1; #1 clock = 0; #1 clocks = clocks + 1;
                  end
                  if (done) $display("done"); else if (fault) $display("fault"); else $display("late");
                end
              endtask
              initial begin
                clock = 0; reset = 0;

            """);
        foreach (var job in jobs)
        {
            for (var index = 0; index < job.Count; index++)
                text.Append($"    store[{index}] = {bits}'h{job[index]:x};\n");
            text.Append("    run;\n");
        }
        return text.Append("    $finish;\n  end\nendmodule\n").ToString();
    }

    /// <summary>A bench that shows the decoder every opcode and prints its lines, each as one digit, in their order.</summary>
    public static string LinesBenchOf(ControlLines lines)
    {
        var bits = 8 * lines.Layout.RecordBytes;
        var text = new StringBuilder($"module bench;\n  reg [{bits - 1}:0] record; wire [{lines.Lines.Count - 1}:0] line;\n"
            + "  controller c (.clock(1'b0), .reset(1'b0), .go_on(1'b0), .record(record)");
        for (var index = 0; index < lines.Lines.Count; index++)
            text.Append($", .line_{lines.Lines[index].Name}(line[{lines.Lines.Count - 1 - index}])");
        text.Append(");\n  initial begin\n");
        for (var opcode = 0; opcode < 1 << lines.Bits.Count; opcode++)
            text.Append($"    record = {bits}'h{lines.WordOf(opcode):x}; #1 $display(\"%b\", line);\n");
        return text.Append("    $finish;\n  end\nendmodule\n").ToString();
    }

    private static int BitsOf(int positions) => Math.Max(1, 32 - System.Numerics.BitOperations.LeadingZeroCount((uint)positions - 1));

    private static string Start(string folder, string program, params string[] args)
    {
        var start = new ProcessStartInfo(program, args) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{program}: {error.Result}{output}");
        return output;
    }

    private static bool IsInPath(string program) => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Any(folder => File.Exists(Path.Combine(folder, program)));
}

/// <summary>A test that needs iverilog.</summary>
internal sealed class VerilogTheoryAttribute : TheoryAttribute
{
    public VerilogTheoryAttribute() => Skip = Verilog.IsMissingBecause;
}
