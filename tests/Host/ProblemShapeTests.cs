using System.Net;
using System.Reflection;
using System.Text;
using Dapper;
using FuelHistory.Contracts;

namespace FuelHistory.Tests.Host;

/// <summary>Every stable code is provoked once, and every refusal has the one shape.</summary>
public sealed class ProblemShapeTests : IDisposable
{
    private static readonly Dictionary<string, Func<ApiHost, Task<Answer>>> Whole = new()
    {
        [Problems.Malformed] = h => h.Post("/v1/vehicles", "{"),
        [Problems.Invalid] = h => h.Post("/v1/vehicles", new { name = "", year = "1981", system = "test-circuit" }),
        [Problems.NotFound] = h => h.Get("/v1/nothing-here"),
        [Problems.Method] = h => h.Send(HttpMethod.Delete, "/v1/vehicles", null),
        [Problems.MediaType] = Text,
        [Problems.NotAcceptable] = async h => await h.Send(HttpMethod.Get, $"/v1/vehicles/{await h.Vehicle()}/trend/chart?check=system-pressure", null, ("Accept", "image/gif")),
        [Problems.Stale] = async h => await h.Put($"/v1/vehicles/{await h.Vehicle()}", new { name = "x", year = "1981", system = "test-circuit" }, "\"7\""),
        [Problems.Closed] = async h =>
        {
            var id = await h.Vehicle();
            await h.Post($"/v1/vehicles/{id}/archive", new { reason = "sold" });
            return await h.Post($"/v1/vehicles/{id}/archive", new { reason = "sold" });
        },
        [Problems.StorageBusy] = Busy,
        [Problems.StorageFull] = Full,
        [Problems.FaultModelUnusable] = OwnFaultModelTests.RefusedLater,
        [Problems.Internal] = Broken,
    };

    private static readonly Dictionary<string, Func<ApiHost, Task<Answer>>> Single = new()
    {
        [Problems.Required] = h => h.Post("/v1/vehicles", new { name = "", year = "1981", system = "test-circuit" }),
        [Problems.Unknown] = h => h.Post("/v1/vehicles", new { name = "x", year = "1981", system = "test" }),
        [Problems.OutOfRange] = async h => await h.Post($"/v1/vehicles/{await h.Vehicle()}/odometer", new { date = "2020", reading = new { value = -1, unit = "km" } }),
        [Problems.ImpossibleDate] = h => h.Post("/v1/vehicles", new { name = "x", year = "2081", system = "test-circuit" }),
        [Problems.BeforeComplaint] = async h => await h.Get($"/v1/complaints/{await h.Complaint(await h.Vehicle())}/assessment?asOf=2020-01-01"),
        [Problems.InFuture] = async h => await h.Get($"/v1/complaints/{await h.Complaint(await h.Vehicle())}/assessment?asOf=2030-01-01"),
        [Problems.WrongUnit] = h => h.Post("/v1/instruments", new { name = "x", quantity = "pressure", unit = "V" }),
        [Problems.Implausible] = h => Find(h, new { at = "2026-06-15T10:00:00Z", check = "system-pressure", reading = new { value = 145, unit = "bar" } }),
        [Problems.MissingCovariate] = h => Find(h, new { at = "2026-06-15T10:00:00Z", check = "control-pressure", reading = new { value = 1.2, unit = "bar" } }),
        [Problems.Unsuitable] = h => Find(h, new { at = "2026-06-15T10:00:00Z", check = "plugs", outcome = "yes" }),
        [Problems.NotFitted] = async h =>
        {
            var id = (await h.Post("/v1/vehicles", new { name = "x", year = "1981", system = "test-circuit", options = new { accumulator = "none" } })).Id;
            return await h.Post($"/v1/vehicles/{id}/work", new { date = "2020", action = "fitted", components = new[] { "accumulator" } });
        },
        [Problems.Differs] = async h =>
        {
            object Reading(double bar) => new { id = "a", minutes = 1, pressure = new { value = bar, unit = "bar" } };
            return await h.Post($"/v1/leak-downs/{await LeakDown(h)}/readings", new { readings = new[] { Reading(2.4), Reading(2.5) } });
        },
        [Problems.NotANumber] = h => File(h, "t,p\n0,x\n"),
        [Problems.OutOfOrder] = h => File(h, "t,p\n9,3\n8,3\n"),
        [Problems.TimeTwice] = h => File(h, "t,p\n9,3\n9,3\n"),
        [Problems.MixedUnits] = h => File(h, "t,p\n9,300 kPa\n"),
        [Problems.TooMany] = async h => await h.Post(
            $"/v1/leak-downs/{await LeakDown(h)}/readings", new { readings = Enumerable.Range(0, 2001).Select(i => new { minutes = i / 10.0, pressure = new { value = 2, unit = "bar" } }) }),
    };

    private readonly ApiHost host = new();

    public static TheoryData<string> WholeCodes => new(Whole.Keys);

    public static TheoryData<string> SingleCodes => new(Single.Keys);

    [Theory]
    [MemberData(nameof(WholeCodes))]
    public async Task Refusal_of_each_code_has_the_one_shape(string code)
    {
        var answer = await Whole[code](host);

        Shape(answer, code);
        if (code == Problems.StorageBusy)
        {
            Assert.NotNull(answer.Headers.RetryAfter);
        }

        if (code == Problems.Method)
        {
            Assert.Equal(["GET", "HEAD", "POST"], answer.Content.Allow.Order(StringComparer.Ordinal));
        }
    }

    [Theory]
    [MemberData(nameof(SingleCodes))]
    public async Task Fault_of_each_code_stands_in_an_invalid_problem(string code)
    {
        var answer = await Single[code](host);

        Shape(answer, Problems.Invalid);
        Assert.Contains(answer.Body.GetProperty("errors").EnumerateArray(), e => e.GetProperty("code").GetString() == code && e.GetProperty("detail").GetString()!.Length > 20);
    }

    [Fact]
    public void Code_without_a_case_fails()
    {
        var codes = typeof(Problems).GetFields(BindingFlags.Public | BindingFlags.Static)
            .Where(f => f.IsLiteral && f.Name != nameof(Problems.TypePrefix)).Select(f => (string)f.GetRawConstantValue()!);

        Assert.Equal(codes.Order(StringComparer.Ordinal), Whole.Keys.Concat(Single.Keys).Order(StringComparer.Ordinal));
    }

    public void Dispose() => host.Dispose();

    private static void Shape(Answer answer, string code)
    {
        Assert.Equal("application/problem+json", answer.Content.ContentType!.MediaType);
        Assert.Equal(code, answer.Code);
        Assert.Equal("urn:fuelhistory:problem:" + code, answer.Member("type"));
        Assert.Equal(((int)answer.Status).ToString(System.Globalization.CultureInfo.InvariantCulture), answer.Member("status"));
        Assert.Matches("^[0-9a-f]{32}$", answer.Member("traceId"));
        Assert.True(answer.Detail.Length > 20);
        foreach (var leak in new[] { " at System.", "SELECT ", Repository.Root, "Microsoft." })
        {
            Assert.DoesNotContain(leak, answer.Text, StringComparison.Ordinal);
        }
    }

    private static async Task<Answer> Find(ApiHost host, object body) => await host.Post($"/v1/vehicles/{await host.Vehicle()}/findings", body);

    private static async Task<string> LeakDown(ApiHost host) =>
        (await host.Post($"/v1/complaints/{await host.Complaint(await host.Vehicle())}/leak-downs", new { check = "leak-down-whole", stoppedAt = "2026-06-15T10:00:00Z" })).Id;

    private static async Task<Answer> File(ApiHost host, string text)
    {
        using StringContent content = new(text, Encoding.UTF8, "text/csv");
        using var response = await host.Client.PostAsync(new Uri($"/v1/leak-downs/{await LeakDown(host)}/import", UriKind.Relative), content);
        return await Answer.Read(response);
    }

    private static async Task<Answer> Text(ApiHost host)
    {
        using StringContent content = new("name=x", Encoding.UTF8, "text/plain");
        using var response = await host.Client.PostAsync(new Uri("/v1/vehicles", UriKind.Relative), content);
        return await Answer.Read(response);
    }

    private static async Task<Answer> Busy(ApiHost host)
    {
        using var other = host.Raw();
        using var writing = other.BeginTransaction(deferred: false);
        return await host.Post("/v1/vehicles", new { name = "x", year = "1981", system = "test-circuit" });
    }

    // The pages of the file are limited on the pooled connections that the host itself uses next.
    private static async Task<Answer> Full(ApiHost host)
    {
        using (var one = host.File.Open())
        using (var two = host.File.Open())
        {
            one.Execute("PRAGMA max_page_count = 1");
            two.Execute("PRAGMA max_page_count = 1");
        }

        Answer answer;
        do
        {
            answer = await host.Post("/v1/vehicles", new { name = "x", year = "1981", system = "test-circuit", note = new string('x', 4000) });
        }
        while (answer.Status == HttpStatusCode.Created);
        return answer;
    }

    private static async Task<Answer> Broken(ApiHost host)
    {
        using (var other = host.Raw())
        {
            other.Execute("DROP TABLE instrument");
        }

        return await host.Get("/v1/instruments");
    }
}
