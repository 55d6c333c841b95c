namespace Repository.Tests;

/// <summary>The parts, and whom each may know. A new part is a new row.</summary>
internal static class PartTable
{
    private static readonly Dictionary<string, string[]> MayKnow = new()
    {
        ["Bridge.Jobs"] = [],
        ["Bridge.Motion"] = ["Bridge.Jobs"],
        ["Bridge.Planning"] = ["Bridge.Jobs", "Bridge.Motion"],
        ["Bridge.Layouts"] = ["Bridge.Jobs", "Bridge.Motion", "Bridge.Planning"],
        ["Bridge.Wire"] = [],
        ["Bridge.Runs"] = ["Bridge.Jobs", "Bridge.Motion", "Bridge.Wire"],
        ["Bridge.History"] = ["Bridge.Jobs", "Bridge.Motion", "Bridge.Wire", "Bridge.Runs"],
        ["Bridge.Mock"] = ["Bridge.Jobs", "Bridge.Motion", "Bridge.Wire"],
        ["Bridge.Serial"] = ["Bridge.Wire"],
        ["Bridge.Teaching"] = ["Bridge.Jobs", "Bridge.Motion", "Bridge.Wire", "Bridge.Runs", "Bridge.Mock"],
        ["Bridge.Station"] = ["Bridge.Jobs", "Bridge.Wire", "Bridge.Runs"],
        ["Bridge.Panel"] = ["Bridge.Jobs", "Bridge.Motion", "Bridge.Planning", "Bridge.Wire", "Bridge.Runs", "Bridge.History"],
        ["Bridge.Cli"] = ["Bridge.Jobs", "Bridge.Motion", "Bridge.Planning", "Bridge.Layouts", "Bridge.Wire", "Bridge.Runs", "Bridge.History",
            "Bridge.Mock", "Bridge.Serial", "Bridge.Station", "Bridge.Teaching", "Bridge.Panel"],
    };

    public static TheoryData<string> Parts => [.. MayKnow.Keys];

    public static IEnumerable<string> Names => MayKnow.Keys.Order();

    /// <summary>Those of some parts that a part may not know.</summary>
    public static IEnumerable<string> Forbidden(string part, IEnumerable<string> known) => known.Except(MayKnow[part]);
}
