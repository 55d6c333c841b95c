using System.Globalization;
using Planning.Bench;

// What is measured, in the order of the README. Each name is a command. `records` takes the first layer, their number and the solver's seconds,
// `travel` the solver's seconds alone, `tour` the problem's file.
return args switch
{
    ["records"] => Code(FewestRecords.Measure(0, 500, 20)),
    ["records", var first, var layers, var seconds] => Code(FewestRecords.Measure(Number(first), Number(layers), Number(seconds))),
    ["travel"] => Code(IdleTravel.Measure(30)),
    ["travel", var seconds] => Code(IdleTravel.Measure(Number(seconds))),
    ["tour", var path] => Code(PublishedTour.Measure(path)),
    ["rows"] => Code(RowByRow.Measure()),
    ["icons"] => Code(Icons.Measure()),
    ["bunny"] => Code(Solids.Bunny()),
    ["ball"] => Code(Solids.Ball()),
    _ => Usage(),
};

static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);

static int Code(bool isMet)
{
    Console.WriteLine(isMet ? "pass" : "FAIL");
    return isMet ? 0 : 1;
}

static int Usage()
{
    Console.Error.WriteLine("Name what to measure: records [FIRST LAYERS SECONDS], travel [SECONDS], tour FILE, rows, icons, bunny, ball.");
    return 2;
}
