using FuelHistory.Client.Lines;
using FuelHistory.Client.Plain;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class LimitsTests
{
    private const string Adopt = $"/v1/vehicles/{Samples.VehicleId}/limits/adopt";

    private static readonly LibraryLimit Book = new(
        "system-pressure-2", "System pressure", "pressure", [Samples.ModelId], ["system-pressure"], "published", "published", "Alder 12 1978-1983", "Alder", "12", [], 1978, 1983,
        "Workshop book of the Alder works", "tee at the distributor", ["idling"], "70-80 psi (5.0-5.5 bar)", "70 to 80 psi", "psi", null, 70, 80, null, [], null, false, null, "70-80 psi is 4.8-5.5 bar", null, null, "this-car");

    private static readonly LibraryLimit Head = Book with
    {
        Id = "system-pressure-1",
        Checks = [],
        Trust = "memory",
        TrustText = "from memory, unconfirmed: check the manual",
        Car = "any car of the system",
        Source = "From memory",
        Figures = "4.5 to 5.6 bar",
        Misprint = null,
        Closeness = "any-car",
    };

    private static readonly LibraryLimit Bound = Head with { Id = "bound-1", Title = "Never above", NotForJudging = "a bound for safety" };

    private static readonly Limit Taken = new(Samples.Head("lim-1"), Samples.VehicleId, "system-pressure", "psi", "Workshop book of the Alder works", 70, 80, null, null, null, "published", Book.Id, Book.Printed, true, "published");

    private static StubServer Server() => Samples.Server().Get("/v1/limits-library", new[] { Book, Head, Bound }).Get("/v1/limits-library/system-pressure-2", Book).Post(Adopt, Taken);

    private static void Open(ScreenHost host)
    {
        FormScreenTests.OpenRecord(host);
        host.Type("m");
        host.WaitFor("From documents");
    }

    [Fact]
    public void List_says_of_every_limit_how_far_to_trust_it()
    {
        using var server = Server();
        using ScreenHost host = new(server.Address);
        Open(host);

        Assert.Contains(host.Rows, row => row.Contains("this car", StringComparison.Ordinal) && row.Contains("published System pressure: 70 to 80 psi", StringComparison.Ordinal));
        Assert.Contains(host.Rows, row => row.Contains("any car", StringComparison.Ordinal) && row.Contains("MEMORY    System pressure", StringComparison.Ordinal));
        Assert.Contains("none is set; a typical limit judges its readings", host.Text, StringComparison.Ordinal);
        host.Press(Key.CursorDown);
        Assert.Contains("any car of the system: from memory, unconfirmed: check the manual", host.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Enter_shows_the_print_and_its_misprint_and_one_key_takes_it()
    {
        using var server = Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.Enter);
        host.WaitFor("70-80 psi is 4.8-5.5 bar");
        Assert.All(["70-80 psi (5.0-5.5 bar)", "Workshop book of the Alder works", "Alder 12 1978-1983", "tee at the distributor"], text => Assert.Contains(text, host.Text, StringComparison.Ordinal));
        server.Get($"/v1/vehicles/{Samples.VehicleId}/limits", new[] { Taken });
        host.Type("j");
        host.WaitFor("Taken for System pressure: published.");
        host.WaitFor("System pressure: 70 to 80 psi");
        var sent = server.Sent("POST", Adopt).Single();
        Assert.Equal((Book.Id, "system-pressure"), ((string?)sent["libraryId"], (string?)sent["check"]));
    }

    [Fact]
    public void Limit_that_names_no_check_asks_which_among_those_of_its_quantity()
    {
        using var server = Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.CursorDown);
        host.Type("j");
        host.WaitFor("Which check does it judge?");
        Assert.DoesNotContain("Injector tips", host.Text, StringComparison.Ordinal);
        host.Type("control");
        host.Press(Key.Enter);
        host.WaitFor("Taken for");
        Assert.Equal("control-pressure", (string?)server.Sent("POST", Adopt).Single()["check"]);
    }

    [Fact]
    public void Limit_that_judges_nothing_says_why_it_cannot_be_taken()
    {
        using var server = Server();
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Press(Key.End);
        host.Type("j");

        Assert.Contains("a bound for safety", host.Text, StringComparison.Ordinal);
        Assert.Equal(0, server.Count("POST", Adopt));
    }

    [Fact]
    public void Refusal_of_the_server_is_said_in_its_words()
    {
        using var server = Server().Refuse("POST", Adopt, 422, Samples.Invalid(new Fault("/libraryId", Problems.Unsuitable, "The limit is for other fuel systems.")));
        using ScreenHost host = new(server.Address);
        Open(host);
        host.Type("j");
        host.WaitFor("The limit is for other fuel systems.");
    }

    [Fact]
    public void Opened_from_a_check_it_asks_for_that_check_and_takes_for_it()
    {
        using var server = Server();
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Type("r");
        host.WaitFor("Injector tips");
        host.Type("control");
        host.Press(Key.Enter);
        host.WaitFor("CAUTION");
        host.Type("m");
        host.WaitFor("From documents");
        host.Press(Key.CursorDown);
        host.Type("j");
        host.WaitFor("Taken for Control pressure cold");
        server.Get($"/v1/vehicles/{Samples.VehicleId}/limits", new[] { Taken with { Check = "control-pressure" } });
        host.Press(Key.Esc);
        host.WaitFor("This car's limit: 70 to 80 psi (published; Workshop book of the Alder works)");
        Assert.Equal((Head.Id, "control-pressure"), ((string?)server.Sent("POST", Adopt).Single()["libraryId"], (string?)server.Sent("POST", Adopt).Single()["check"]));
    }

    [Fact]
    public void One_entered_by_hand_is_added_from_here_for_the_check()
    {
        using var server = Server().Post($"/v1/vehicles/{Samples.VehicleId}/limits", Taken with { Trust = "own", TrustText = "own entry" });
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Type("r");
        host.WaitFor("Injector tips");
        host.Type("control");
        host.Press(Key.Enter);
        host.WaitFor("CAUTION");
        host.Type("m");
        host.WaitFor("From documents");
        host.Type("a");
        host.WaitForForm("Enter a limit of this car");
        Assert.Contains("Control pressure cold", host.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(60)]
    [InlineData(80)]
    [InlineData(132)]
    public void Lines_at_any_width_fit_and_keep_the_trust_mark(int width)
    {
        var lines = LimitLines.List([Taken], [Book with { Title = new string('x', 200) }, Head], id => id, "From documents", 2, width, 20, Signs.Plain);

        Assert.All(lines, line => Assert.InRange(Cells.Width(line.Text), 0, width));
        Assert.All(lines.Where(line => line.Row is not null), line => Assert.Matches("^  .{10} (published|MEMORY   ) ", line.Text));
        Assert.All(LimitLines.One(Book with { Source = string.Join(' ', Enumerable.Repeat("word", 80)) }, width, Signs.Plain), line => Assert.InRange(Cells.Width(line.Text), 0, width));
    }

    [Fact]
    public void Lines_of_a_long_list_keep_the_marked_one_and_its_source_in_sight()
    {
        var many = Enumerable.Range(0, 60).Select(at => Book with { Title = $"Limit number {at}", Source = $"Source {at}" }).ToList();
        for (var marked = 0; marked < 61; marked++)
        {
            var lines = LimitLines.List([Taken], many, id => id, "From documents", marked, 80, 20, Signs.Plain);

            Assert.InRange(lines.Count, 1, 20);
            Assert.Contains(lines, line => line.Row == marked);
            if (marked > 0) Assert.Contains(lines.Take(3), line => line.Text.Trim() == $"Source {marked - 1}");
        }
    }

    [Fact]
    public async Task Limits_with_find_prints_what_documents_say_with_source_and_trust()
    {
        using var server = Server();
        var (code, output, errors) = await PlainTests.Run(server.Address, "limits", "blue", "--find", "system");

        Assert.True(code == ExitCodes.Done, errors);
        Assert.Contains("system-pressure-2  this car: System pressure, 70 to 80 psi; for Alder 12 1978-1983 (published: Workshop book of the Alder works)", output, StringComparison.Ordinal);
        Assert.Contains("(from memory, unconfirmed: check the manual: From memory)", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Limits_without_find_prints_the_cars_own_with_where_they_come_from()
    {
        using var server = Server();
        Assert.Contains("None is entered", (await PlainTests.Run(server.Address, "limits", "blue")).Output, StringComparison.Ordinal);
        server.Get($"/v1/vehicles/{Samples.VehicleId}/limits", new[] { Taken });
        Assert.Contains("(published: Workshop book of the Alder works)", (await PlainTests.Run(server.Address, "limits", "blue")).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Limit_prints_all_of_one_and_adopt_takes_it()
    {
        using var server = Server();
        Assert.Contains("70-80 psi is 4.8-5.5 bar", (await PlainTests.Run(server.Address, "limit", Book.Id)).Output, StringComparison.Ordinal);
        var (code, output, errors) = await PlainTests.Run(server.Address, "adopt", "blue", Book.Id, "--check", "system-pressure");

        Assert.True(code == ExitCodes.Done, errors);
        Assert.Contains("Taken: system-pressure: at least 70 psi, at most 80 psi (published: Workshop book", output, StringComparison.Ordinal);
        Assert.Equal(Book.Id, (string?)server.Sent("POST", Adopt).Single()["libraryId"]);
    }
}
