using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

/// <summary>What is shown after something was saved is what the server says then.</summary>
[Collection(OneScreenAtATime.Name)]
public sealed class FreshTests
{
    [Fact]
    public void Vehicles_after_something_was_saved_below_are_asked_for_again()
    {
        using var server = Samples.Server().Post($"/v1/vehicles/{Samples.VehicleId}/complaints", Samples.Complaint);
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Type("cnew one");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Opened:");
        server.Get("/v1/vehicles", new[] { Samples.Vehicle with { OpenComplaints = 7 } });
        host.Press(Key.Esc);
        host.WaitFor("7 open complaints");
    }

    [Fact]
    public void Ranking_before_what_was_saved_is_marked_old_and_opens_nothing_until_it_is_new()
    {
        using var server = Samples.Server().Post($"/v1/vehicles/{Samples.VehicleId}/work", new Work(Samples.Head("wrk-9"), Samples.VehicleId, "2026-06", "fitted", ["pump"], "did-it", null, "new", null, null, null, null, null, "unknown", null));
        using ScreenHost host = new(server.Address);
        LikelyScreenTests.Open(host);
        host.Type("w");
        host.WaitForForm("Enter work");
        host.Press(Key.S.WithCtrl);
        host.WaitFor("Entered:");
        Assert.Contains("NOT UP TO DATE", host.Rows[0], StringComparison.Ordinal);
        server.Get($"/v1/complaints/{Samples.ComplaintId}/assessment", Samples.Assessment with { Ranking = [Samples.Assessment.Ranking[1]] });
        host.Type("y");
        Assert.Contains("Why: Fuel accumulator", host.WaitUntil(() => host.Rows[0].StartsWith("Why:", StringComparison.Ordinal), "why"), StringComparison.Ordinal);
    }

    [Fact]
    public void Mark_of_the_record_stays_on_its_entry_when_another_comes_above_it()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Press(Key.CursorDown, Key.CursorDown, Key.CursorDown);
        server.Get($"/v1/vehicles/{Samples.VehicleId}/record", Samples.Record with { Lines = [new("work", "wrk-7", 1, "2026-06-02", "Filter fitted", null, null, null), .. Samples.Record.Lines] });
        host.Press(Key.R.WithCtrl);
        host.WaitFor("Filter fitted");
        Assert.Contains("Fuel pump fitted", host.Rows.Single(row => row.StartsWith('▸')), StringComparison.Ordinal);
    }
}
