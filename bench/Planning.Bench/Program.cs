using System.Globalization;
using Planning.Bench;

// What is measured, in the order of the README. Each name is a command; `records` takes the first layer and their number, `travel` the solver's seconds.
return args switch
{
    ["records"] => Code(FewestRecords.Measure(0, 500)),
    ["records", var first, var layers] => Code(FewestRecords.Measure(Number(first), Number(layers))),
    ["travel"] => Code(IdleTravel.Measure(30)),
    ["travel", var seconds] => Code(IdleTravel.Measure(Number(seconds))),
    ["rows"] => Code(RowByRow.Measure()),
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
    Console.Error.WriteLine("Name what to measure: records [FIRST LAYERS], travel [SECONDS], rows.");
    return 2;
}
