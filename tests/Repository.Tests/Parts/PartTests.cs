using System.Reflection;
using System.Xml.Linq;

namespace Repository.Tests;

/// <summary>The parts know just those that they may know.</summary>
public class PartTests
{
    private static readonly string[] VagueNames = ["Common", "Core", "Utils", "Util", "Helpers", "Helper", "Shared", "Misc"];

    public static TheoryData<string> Parts => PartTable.Parts;

    [Fact]
    public void Every_part_has_a_row_in_the_table_and_every_row_a_part() =>
        Assert.Equal(PartTable.Names, Checkout.Projects("src").Order());

    [Theory]
    [MemberData(nameof(Parts))]
    public void A_project_refers_to_the_parts_it_may_know_and_no_other(string part) =>
        Findings.AssertNone(PartTable.Forbidden(part, ReferencesOf(part)));

    [Theory]
    [MemberData(nameof(Parts))]
    public void A_built_part_uses_the_parts_it_may_know_and_no_other(string part) =>
        Findings.AssertNone(PartTable.Forbidden(part, AssemblyOf(part).GetReferencedAssemblies()
            .Select(name => name.Name!).Where(name => name.StartsWith("Bridge.", StringComparison.Ordinal) || name == "bridge")));

    [Fact]
    public void The_program_refers_to_every_other_part() =>
        Assert.Equal(PartTable.Names.Where(name => name != "Bridge.Cli"), ReferencesOf("Bridge.Cli").Order());

    [Theory]
    [MemberData(nameof(Parts))]
    public void A_part_is_one_namespace(string part)
    {
        var strays = Checkout.Under($"src/{part}", ".cs").Where(file => Path.GetFileName(file) != "Program.cs")
            .Where(file => !Checkout.Lines(file).Contains($"namespace {part};"));
        Findings.AssertNone(strays);
    }

    [Fact]
    public void Every_part_has_its_tests_and_every_test_of_a_part_has_its_part()
    {
        var tested = Checkout.Projects("tests").Where(name => name.StartsWith("Bridge.", StringComparison.Ordinal));
        Assert.Equal(Checkout.Projects("src").Select(part => $"{part}.Tests").Order(), tested.Order());
    }

    [Fact]
    public void Every_project_belongs_to_the_solution()
    {
        var solution = Checkout.Read("Bridge.sln").Replace('\\', '/');
        Findings.AssertNone(Checkout.Files.Where(file => Path.GetExtension(file) == ".csproj" && !solution.Contains($"\"{file}\"", StringComparison.Ordinal)));
    }

    [Fact]
    public void No_project_and_no_folder_has_a_name_that_says_nothing()
    {
        var names = Checkout.Files.Where(file => Path.GetExtension(file) == ".cs").SelectMany(file => Path.GetDirectoryName(file)!.Split('/', '.')).Distinct();
        Findings.AssertNone(names.Intersect(VagueNames));
    }

    private static IEnumerable<string> ReferencesOf(string part) => XDocument.Parse(Checkout.Read($"src/{part}/{part}.csproj"))
        .Descendants("ProjectReference").Select(reference => Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value.Replace('\\', '/')));

    private static Assembly AssemblyOf(string part) => Assembly.Load(part == "Bridge.Cli" ? "bridge" : part);
}
