using Bridge.Jobs;

namespace Bridge.Panel;

/// <summary>What the panel is for, as a page gets it.</summary>
public sealed record PanelView(
    string Program, MachineView Machine, DeviceView Device, IReadOnlyList<ExampleView> Examples, int MostUploadBytes)
{
    internal static PanelView Of(PanelSetting setting, Examples examples) => new(
        Runs.ProgramVersion.Text, MachineView.Of(setting.Machine), new DeviceView(setting.Devices.Port ?? "mock", setting.Devices.Port is null),
        [.. examples.Names.Select(name => new ExampleView(name, Path.GetExtension(name)[1..]))], JobDesk.MostBytes);
}

/// <summary>The machine.</summary>
public sealed record MachineView(
    string Name, int GridX, int GridY, int Layers, int AxisBits, int RecordBytes, int StoreBytes, PitchView PitchMm, IReadOnlyList<string> Heads,
    IReadOnlyDictionary<string, string> HeadKinds, bool MayOverprint)
{
    internal static MachineView Of(Machine machine)
    {
        var tools = new[] { ("a", machine.A), ("b", machine.B) }.Where(tool => tool.Item2 is not null).ToDictionary(tool => tool.Item1, tool => tool.Item2!);
        return new MachineView(machine.Name, machine.Grid.X, machine.Grid.Y, machine.Grid.Layers, machine.Width.AxisBits, machine.Width.Bytes,
            machine.StoreBytes, new PitchView(machine.X.PitchMm, machine.Y.PitchMm, machine.Z?.PitchMm), [.. tools.Keys],
            tools.ToDictionary(tool => tool.Key, tool => tool.Value is HeadTool.Pen ? "pen" : "dot"), machine.MayOverprint);
    }
}

/// <summary>Distances from cell to cell in mm.</summary>
public sealed record PitchView(double X, double Y, double? Z);

/// <summary>What runs are done on, beside the mock.</summary>
public sealed record DeviceView(string Name, bool IsMock);

/// <summary>An example shape.</summary>
public sealed record ExampleView(string Name, string Kind);
