using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using FuelHistory.Contracts;
using FuelHistory.Host.Features.LeakImports;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Host;

public sealed class LeakImportTests : IDisposable
{
    private const int MostSamples = 1_000_000;
    private readonly ApiHost host = new();

    [Fact]
    public async Task File_of_a_logger_becomes_readings_and_comes_back_as_it_was_sent()
    {
        var run = await Begin();
        var file = "t [s];p [bar]\r\n" + string.Concat(Enumerable.Range(0, 600).Select(i => FormattableString.Invariant($"{(i / 10.0) - 5:0.0};{3 - (i / 400.0):0.000}\r\n").Replace('.', ',')));

        var done = await Import(run, "?delimiter=semicolon&decimal=comma", file);

        var import = done.Body.GetProperty("leakDown").GetProperty("import");
        Assert.Equal((550, 50), (import.GetProperty("samples").GetInt32(), import.GetProperty("beforeStop").GetInt32()));
        var readings = done.Body.GetProperty("readings").EnumerateArray().ToList();
        Assert.Equal(import.GetProperty("readings").GetInt32(), readings.Count);
        Assert.Equal(550, readings.Sum(r => r.GetProperty("samples").GetInt32()));
        Assert.NotEqual(JsonValueKind.Null, done.Body.GetProperty("analysis").ValueKind);
        Assert.Equal(file, (await host.Get($"/v1/leak-downs/{run}/raw")).Text);
        var finding = (await host.Post($"/v1/leak-downs/{run}/finish")).Member("finding");
        Assert.Matches(@"^Residual pressure: 2\.8\d+ bar after 0\.01 min, .* bar after 0\.91 min \(55 readings\)$", (await host.Get($"/v1/findings/{finding}")).Member("text"));
    }

    [Fact]
    public async Task Same_file_again_is_taken_once_and_another_is_refused()
    {
        var run = await Begin();
        var first = await Import(run, "", "t,p\n0,3\n60,2\n");

        var again = await Import(run, "", "t,p\n0,3\n60,2\n");
        var other = await Import(run, "", "t,p\n0,3\n60,2.5\n");
        var otherwise = await Import(run, "?timeUnit=min", "t,p\n0,3\n60,2\n");

        Assert.Equal(first.Text, again.Text);
        Assert.Equal([" differs"], other.Faults);
        Assert.Equal([" differs"], otherwise.Faults);
    }

    [Theory]
    [InlineData("", "t,p\n0,3\n90,2\n", 1.5)]
    [InlineData("?timeUnit=ms&time=2&value=1&header=false", "3,0\n2,90000\n", 1.5)]
    [InlineData("?timeUnit=min&skip=2&delimiter=tab&time=Minutes&value=P", "logger 7\nrun 3\nMinutes\tx\tP\n0\t9\t3\n1.5\t9\t2\n", 1.5)]
    [InlineData("?stop=10", "t,p\n0,5\n10,3\n100,2\n", 1.5)]
    [InlineData("?timeUnit=instant", "t,p\n2026-06-15T08:00:00Z,3\n2026-06-15T10:01:30+02:00,2\n", 1.5)]
    [InlineData("?timeUnit=instant", "t,p\n2026-06-15 10:00:00.0,3\n2026-06-15 10:01:30.0,2\n", 1.5)]
    [InlineData("?timeUnit=instant&stop=2026-06-15T08:00:30Z", "t,p\n2026-06-15 10:00:00.0,3\n2026-06-15 10:02:00,2\n", 1.5)]
    [InlineData("?unit=kPa", "\"t\",\"p (kPa)\"\n0,\"300 kPa\"\n90,200\n\n", 1.5)]
    public async Task File_is_read_as_the_form_says(string query, string file, double last)
    {
        var answer = await Import(await Begin(), query, file);

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        var reading = answer.Body.GetProperty("readings").EnumerateArray().Last();
        Assert.Equal(last, reading.GetProperty("minutes").GetDouble(), 6);
        Assert.Equal(query.Contains("kPa", StringComparison.Ordinal) ? 200 : 2, reading.GetProperty("pressure").GetProperty("value").GetDouble());
    }

    [Theory]
    [InlineData("", "", " required", "empty")]
    [InlineData("", "t,p\n", " required", "no sample")]
    [InlineData("", "t,p\n0,3\n60\n", "/lines/2 malformed", "Line 3 has 1 columns")]
    [InlineData("", "t,p\n0,3\n60,2.9\n30,2\n", "/lines/3 out-of-order", "Line 4 goes back in time, to 30")]
    [InlineData("", "t,p\n0,3\n60,2.9\n60,2.8\n", "/lines/3 time-twice", "Line 4 has the time 60 once more")]
    [InlineData("", "t,p\n0,3\n60,NaN\n", "/lines/2 not-a-number", "\"NaN\"")]
    [InlineData("", "t,p\n0,3\nInfinity,2\n", "/lines/2 not-a-number", "the time \"Infinity\"")]
    [InlineData("", "t,p\n0,3\n60,\n", "/lines/2 not-a-number", "The cell is empty")]
    [InlineData("?delimiter=semicolon", "t;p\n0;3,0\n", "/lines/1 not-a-number", "say decimal=comma")]
    [InlineData("", "t,p\n0,3 bar\n60,210 kPa\n", "/lines/2 mixed-units", "Line 3 has 210 kPa")]
    [InlineData("", "t,p (kPa)\n0,300\n", "unit wrong-unit", "Say unit=kPa")]
    [InlineData("", "t (ms),p\n0,3\n", "timeUnit wrong-unit", "Say timeUnit=ms")]
    [InlineData("", "t,p\n0,300\n", "/lines/1 implausible", "300 kPa (3 bar)")]
    [InlineData("", "t,p\n0,-2\n", "/lines/1 out-of-range", "cannot be below 0")]
    [InlineData("?timeUnit=h", "t,p\n0,3\n30,2\n", "/lines/2 out-of-range", "a leak-down ends after 24")]
    [InlineData("?stop=100", "t,p\n0,3\n60,2\n", " required", "before the stop")]
    [InlineData("?value=Druck", "t,p\n0,3\n", "value unknown", "its headings are \"t\", \"p\"")]
    [InlineData("?value=3&header=false", "0,3\n", "/lines/0 malformed", "column 3 is needed")]
    [InlineData("?value=p&header=false", "0,3\n", "value unsuitable", "number from 1")]
    [InlineData("?time=2", "t,p\n0,3\n", "value unsuitable", "the same column")]
    [InlineData("?decimal=comma", "t,p\n0,3\n", "decimal unsuitable", "delimiter=semicolon")]
    [InlineData("?timeUnit=days&skip=-1&unit=V", "t,p\n0,3\n", "skip out-of-range", "")]
    [InlineData("?stop=noon", "t,p\n0,3\n", "stop not-a-number", "no number")]
    [InlineData("?timeUnit=instant", "t,p\n12:00,3\n", "/lines/1 not-a-number", "no instant")]
    [InlineData("", "t,p\n0,3\n60,\"2\n", "/lines/2 malformed", "quote")]
    public async Task Bad_file_is_refused_with_line_value_and_what_to_do_and_nothing_is_stored(string query, string file, string fault, string says)
    {
        var run = await Begin();

        var refused = await Import(run, query, file);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Equal(fault, refused.Faults[0]);
        Assert.Contains(says, refused.Detail, StringComparison.Ordinal);
        await Nothing(run);
    }

    [Fact]
    public async Task Wrong_lines_are_told_a_few_at_a_time()
    {
        var refused = await Import(await Begin(), "", "t,p\n" + string.Concat(Enumerable.Range(0, 100).Select(i => $"{i},x\n")));

        Assert.Equal(5, refused.Faults.Count);
    }

    [Fact]
    public async Task Implausible_file_is_taken_once_confirmed() =>
        Assert.Equal(HttpStatusCode.OK, (await Import(await Begin(), "?confirmed=true", "t,p\n0,30\n60,20\n")).Status);

    [Fact]
    public async Task Letters_that_are_not_utf8_need_their_charset()
    {
        var run = await Begin();
        var file = Encoding.Latin1.GetBytes("zeit µ,p\n0,3\n60,2\n");

        var refused = await Send(run, "", new ByteArrayContent(file), "text/csv");
        Assert.Equal([" malformed"], refused.Faults);
        Assert.Contains("charset=windows-1252", refused.Detail, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await Send(run, "", new ByteArrayContent(file), "text/csv; charset=windows-1252")).Status);
        Assert.Equal(HttpStatusCode.BadRequest, (await Send(await Begin(), "", new ByteArrayContent(file), "text/csv; charset=klingon")).Status);
    }

    [Fact]
    public async Task File_may_come_in_a_form_with_its_fields()
    {
        var run = await Begin();
        using MultipartFormDataContent form = new() { { new StringContent("min"), "timeUnit" }, { new StringContent("\uFEFFt,p\n0,3\n2,2\n"), "file", "log.csv" } };

        var done = await Send(run, "", form, null);

        Assert.Equal(2, done.Body.GetProperty("readings")[1].GetProperty("minutes").GetDouble());
        using MultipartFormDataContent two = new() { { new StringContent("t,p\n0,3\n"), "a", "a.csv" }, { new StringContent("t,p\n0,3\n"), "b", "b.csv" }, { new StringContent("x"), "tme" } };
        Assert.Equal(["tme unknown", " too-many"], (await Send(await Begin(), "", two, null)).Faults);
        using ByteArrayContent broken = new(Encoding.ASCII.GetBytes("--x\r\nContent-Disp"));
        Assert.Equal("malformed", (await Send(await Begin(), "", broken, "multipart/form-data; boundary=x")).Code);
    }

    [Fact]
    public async Task Many_samples_leave_no_memory_behind()
    {
        var run = await Begin();
        GC.Collect(); // finalizers are not waited for: those of tests that run beside this one may wait for something themselves
        var before = GC.GetTotalMemory(forceFullCollection: false);

        var done = await Send(run, "?timeUnit=ms", new Samples(200_000), "text/csv");

        Assert.Equal(200_000, done.Body.GetProperty("leakDown").GetProperty("import").GetProperty("samples").GetInt32());
        Assert.InRange(done.Body.GetProperty("readings").GetArrayLength(), 200, 600);
        GC.Collect();
        Assert.InRange(GC.GetTotalMemory(forceFullCollection: false) - before, long.MinValue, 16 * 1024 * 1024);
    }

    [Fact]
    public async Task Million_samples_are_read_in_flat_memory_and_one_more_is_refused()
    {
        LeakFileForm form = new("1", "2", "bar", "ms", null, "point", "comma", true, 0);
        var check = ModelFile.Model.Checks.First(c => c.Id == "leak-down-whole");
        (LeakFile File, Faults Faults, long Allocated) Read(Stream content)
        {
            Faults faults = new();
            var before = GC.GetAllocatedBytesForCurrentThread();
            var file = new LeakFileReader(form, check, DateTimeOffset.UnixEpoch, confirmed: false).Read(faults, content, new UTF8Encoding(false, true));
            return (file, faults, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        using MemoryStream content = new();
        using Samples million = new(MostSamples);
        await million.CopyToAsync(content);
        content.Position = 0;
        var whole = Read(content);

        Assert.True(whole.Faults.None);
        Assert.Equal(MostSamples, whole.File.Samples);
        Assert.InRange(whole.Allocated, 0, 4 * 1024 * 1024);
        content.Position = content.Length;
        content.Write("50000000,0.1\n"u8);
        content.Position = 0;
        Assert.Equal((Problems.TooMany, $"/lines/{MostSamples + 1}"), Read(content).Faults.Found.Select(f => (f.Code, f.Pointer)).Single());
    }

    [Fact]
    public void Full_disk_under_the_temporary_file_is_told_from_other_faults()
    {
        Assert.False(Unexpected.IsDiskFull(new FileNotFoundException("gone")));
        if (OperatingSystem.IsLinux())
        {
            using FileStream full = new("/dev/full", FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
            Assert.True(Unexpected.IsDiskFull(Assert.Throws<IOException>(() => full.Write("x"u8))));
        }
    }

    [Fact]
    public async Task File_over_the_limit_of_bytes_is_refused()
    {
        var run = await Begin();
        using HttpRequestMessage request = new(HttpMethod.Post, $"/v1/leak-downs/{run}/import") { Content = new Samples(1) { Claimed = (100L * 1024 * 1024) + 1 } };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("text/csv");
        request.Headers.ExpectContinue = true;

        using var response = await host.Client.SendAsync(request);
        var refused = await Answer.Read(response);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, refused.Status);
        Assert.Contains("100 MiB", refused.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "x", "")]
    [InlineData("t,p\n0,3\n60,\"", "\n", "")]
    [InlineData("", "1,2", "?header=false")]
    public async Task File_of_one_endless_line_is_refused(string start, string piece, string query)
    {
        var refused = await Import(await Begin(), query, start + string.Concat(Enumerable.Repeat(piece, 20_000_000)));

        Assert.Equal("malformed", refused.Body.GetProperty("errors")[0].GetProperty("code").GetString());
        Assert.Contains("far too long, or a quote is not closed", refused.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Other_media_types_are_refused_naming_those_that_are_taken()
    {
        var refused = await Send(await Begin(), "", new StringContent("{}"), "application/json");

        Assert.Equal("unsupported-media-type", refused.Code);
        Assert.Contains("text/csv", refused.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Finished_leak_down_takes_no_file_and_one_without_a_file_has_none_to_give()
    {
        var run = await Begin();
        await Import(run, "", "t,p\n0,3\n60,2\n");
        await host.Post($"/v1/leak-downs/{run}/finish");

        Assert.Equal("closed", (await Import(run, "", "t,p\n0,3\n60,2\n")).Code);
        Assert.Equal("not-found", (await host.Get($"/v1/leak-downs/{await Begin()}/raw")).Code);
    }

    public void Dispose() => host.Dispose();

    private async Task Nothing(string run)
    {
        var view = await host.Get($"/v1/leak-downs/{run}");
        Assert.Equal(0, view.Body.GetProperty("readings").GetArrayLength());
        Assert.Equal(JsonValueKind.Null, view.Body.GetProperty("leakDown").GetProperty("import").ValueKind);
        Assert.Equal("not-found", (await host.Get($"/v1/leak-downs/{run}/raw")).Code);
    }

    private async Task<string> Begin()
    {
        var complaint = await host.Complaint(await host.Vehicle());
        return (await host.Post($"/v1/complaints/{complaint}/leak-downs", new { check = "leak-down-whole", stoppedAt = "2026-06-15T10:00:00+02:00" })).Id;
    }

    private Task<Answer> Import(string run, string query, string file) => Send(run, query, new StringContent(file), "text/csv");

    private async Task<Answer> Send(string run, string query, HttpContent content, string? type)
    {
        content.Headers.ContentType = type is null ? content.Headers.ContentType : MediaTypeHeaderValue.Parse(type);
        using var response = await host.Client.PostAsync(new Uri($"/v1/leak-downs/{run}/import{query}", UriKind.Relative), content);
        return await Answer.Read(response);
    }

    /// <summary>A logger's file that is made while it is sent.</summary>
    private sealed class Samples(int count) : HttpContent
    {
        public long? Claimed { get; init; }

        protected override async Task SerializeToStreamAsync(Stream stream, TransportContext? context)
        {
            StreamWriter text = new(stream, new UTF8Encoding(false), 1 << 16);
            await text.WriteAsync("t,p\n");
            for (var i = 0; i < count; i++)
            {
                await text.WriteAsync(FormattableString.Invariant($"{i * 50},{3 * Math.Exp(-i / 400_000.0):0.000}\n"));
            }

            await text.FlushAsync();
        }

        protected override bool TryComputeLength(out long length) => (length = Claimed ?? 0) == Claimed;
    }
}
