using Bridge.Bench;

// What is measured, in the order of the README. Each name is a command.
var benches = new Dictionary<string, Func<IEnumerable<Figure>>>
{
    ["plan-picture"] = PlanPicture.Measure,
    ["interpret"] = Interpret.Measure,
    ["link"] = LinkThroughput.Measure,
    ["station"] = ContactToStop.Measure,
    ["plan-memory"] = PlanMemory.Measure,
    ["logic"] = LayoutLogic.Measure,
    ["layouts"] = LayoutBytes.Measure,
    ["run-record"] = RunRecord.Measure,
    ["panel-soak"] = PanelSoak.Measure,
    ["step"] = Stepping.Measure,
    ["trace"] = Tracing.Measure,
    ["demo"] = WholeProgram.MeasureDemo,
    ["start"] = WholeProgram.MeasureStart,
};

if (args is [PlanMemory.ChildName, var shape])
    return PlanMemory.Child(shape);
if (args is not ["all"] && !(args.Length > 0 && args.All(benches.ContainsKey)))
{
    Console.Error.WriteLine($"Name what to measure: {string.Join(", ", benches.Keys)}, or all.");
    return 2;
}

var isMet = true;
foreach (var name in args is ["all"] ? benches.Keys : args.AsEnumerable())
{
    foreach (var figure in benches[name]())
    {
        Console.WriteLine(figure);
        isMet &= figure.IsMet;
    }
}

return isMet ? 0 : 1;
