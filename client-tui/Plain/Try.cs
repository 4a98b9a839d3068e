using System.CommandLine;
using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Plain;

/// <summary>The verb that tries without storing.</summary>
internal static class Try
{
    private static readonly Argument<string> Subject = new("complaint") { Description = "a complaint, or a vehicle with one open complaint" };
    private static readonly Option<string[]> Checks = Many("--check", "a check not made yet; each with its --outcome"), Outcomes = Many("--outcome", "what that check would show: an outcome, or a reading such as \"4.9 bar\"");
    private static readonly Option<string[]> Told = Many("--event", "NAME=present or NAME=absent"), Fitted = Many("--fitted", "a component fitted new, before the checks that are tried");
    private static readonly Option<string[]> Without = Many("--without", "a recorded finding or work that shall not count, by its id or words from it");

    public static Command Verb(Start start) => start.Verb(
        new Command("what-if", "What would be likely with a finding more, a part fitted, or an entry less; nothing is stored") { Subject, Checks, Outcomes, Told, Fitted, Without },
        async (session, parsed) =>
        {
            var complaint = await session.Resolve.Complaint(parsed.GetValue(Subject)!);
            var data = await complaint.Then(known => FormSource.Complaint(session.Calls, session.Clock, known.Entry.Id, session.Stop));
            var answer = await data.Then(async known => await (await session.Calls.Ask(api => api.Record(known.Vehicle!.Entry.Id, session.Stop)))
                .Then(record => session.Calls.Ask(api => api.WhatIf(known.Complaint!.Entry.Id, Ask(known, record, parsed), session.Stop))));
            return session.Printer.Print(answer, got => PlainLines.WhatIf(got, session.Printer.Width, session.Printer.Signs));
        });

    private static WhatIf Ask(FormData data, RecordView record, ParseResult parsed)
    {
        var (model, now) = (data.Model!, data.Clock.GetLocalNow());
        string[] checks = Given(Checks), outcomes = Given(Outcomes);
        if (checks.Length != outcomes.Length) throw new NameFailure("Each --check needs its --outcome, and each --outcome its --check.");
        var body = Trial.Ask(
            [
                .. checks.Zip(outcomes, (check, outcome) => OfCheck(data, Resolve.One(model.Checks, each => new(each.Id, each.Title), check, "check"), outcome, now, parsed.GetValue(Start.Confirmed))),
                .. Given(Told).Select(text => OfEvent(model, text, now)),
                .. Given(Fitted).Select(text => Trial.OfWork(Resolve.One([.. model.Components.Where(part => !part.Instrument)], each => new(each.Id, each.Title), text, "component"), "fitted", DateOnly.FromDateTime(now.DateTime), null)),
            ],
            Given(Without).Select(text => Resolve.One([.. record.Lines.Where(line => line.Kind is "finding" or "work" && line.VoidReason is null)], line => new(line.Id, line.Text), text, "finding or work").Id));
        return body is { Findings.Count: 0, Work.Count: 0, LeaveOut.Count: 0 } ? throw new NameFailure("Nothing is tried: give --check with --outcome, --event, --fitted or --without.") : body;

        string[] Given(Option<string[]> option) => parsed.GetValue(option) ?? [];
    }

    private static Trial OfCheck(FormData data, CheckView check, string text, DateTimeOffset now, bool confirmed)
    {
        // a measurement is given by its figure, or by the side of the limits where that is all that is known
        if (FindingForms.Outcomes(check) is { Count: > 0 } outcomes && (check.Kind is not "measurement" || outcomes.Any(each => each.Id == text))) return Trial.OfOutcome(check, Resolve.One(outcomes, each => each, text, "outcome"), now);
        TypedField reading = new("reading", check.Title, "", text);
        Draft draft = new(data.Clock);
        return draft.Measure(reading, data.Unit(check.Quantity, check.Unit)) is { } measured
            ? new Trial($"{check.Title}: {Figures.Of(measured)}", new NewFinding(now, Check: check.Id, Reading: measured, Confirmed: confirmed))
            : throw new NameFailure(draft.Faults.Count > 0 ? draft.Faults[0].Detail : $"{check.Title} needs a reading");
    }

    private static Trial OfEvent(FaultModelView model, string text, DateTimeOffset now)
    {
        return text.Split('=', 2, StringSplitOptions.TrimEntries) is [var name, ("present" or "absent") and var answer]
            ? Trial.OfAnswer(Resolve.One(Events.Of(model), each => each, name, "event"), answer, now)
            : throw new NameFailure($"\"{text}\" is no answer; write NAME=present or NAME=absent.");
    }

    private static Option<string[]> Many(string name, string about) => new(name) { Description = about };
}
